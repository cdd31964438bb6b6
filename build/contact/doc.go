// Package contact makes the contact sheet: pages that show, photo by photo, what
// measure cut out and used, for a person to check at a glance, and give the
// line to type where something was found wrong.
//
// A photo's part of the sheet is a file of its own, kept until the photo is
// measured anew, and so is its picture; a page is some parts joined. It needs
// no server.
package contact
