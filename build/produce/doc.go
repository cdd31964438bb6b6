// Package produce is what a person can have made of a wall: the PDFs and the
// site. It holds the verbs that tiles/run, which nothing of build/ is for,
// cannot; they take the wall's folder and a wish in the same manner, tell what
// they do while they do it, and print nothing.
//
//	made, err := produce.Print(ctx, dir, produce.PrintWish{Sheets: sheets, Date: "2026-03-14"})
//	built, err := produce.Site(ctx, dir, produce.SiteWish{Tell: tell})
package produce
