// Command twodip plans, prints, measures and publishes a wall of fired test
// tiles: one for each glaze and each ordered pair of glazes.
package main

import "os"

func main() {
	os.Exit(execute(wanted(os.Args[1:], clicked()), os.Stdin, os.Stdout, os.Stderr))
}
