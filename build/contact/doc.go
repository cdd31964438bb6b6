// Package contact makes the contact sheet: one page that shows, photo by photo,
// what measure cut out and used, for a person to check at a glance, and gives
// the line to type where something was found wrong.
//
// A photo's part of the page is a file of its own, kept until the photo is
// measured anew; the page is all parts joined. It needs no server and no other
// file.
package contact
