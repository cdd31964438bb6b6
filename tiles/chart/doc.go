// Package chart lays out the charts of traces and drift as plain marks (lines,
// dots, words) in millimetres, so that the site writes them as SVG and the
// sheets print the same ones. Nothing in them depends on color.
package chart
