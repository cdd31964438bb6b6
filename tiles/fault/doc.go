// Package fault reads a studio's glazing log for what its faults have in
// common, checks pieces before they are loaded, and holds buckets against
// their own tiles. It counts and compares; it never says what caused a fault.
package fault
