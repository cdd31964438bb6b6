// Package spectral makes what cameras would write of surfaces whose spectra are
// published, under lights whose spectra are published, for tests only: the true
// color of everything is known. Spectra come from ../shared/reference, beside
// the checkout, each folder with its source; a test that finds none is skipped.
package spectral
