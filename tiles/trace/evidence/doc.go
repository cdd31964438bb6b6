// Package evidence weighs two-by-two tables of counts: exact tests, score
// intervals, odds within strata, and the price of asking many questions. It
// knows nothing of glazes.
package evidence
