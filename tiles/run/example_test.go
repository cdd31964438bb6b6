package run_test

import (
	"fmt"
	"os"

	"github.com/twodip/twodip/content"
	"github.com/twodip/twodip/tiles/folder"
	"github.com/twodip/twodip/tiles/run"
)

// A front asks what a plan would change, shows it, and then has it made.
func Example() {
	parent, _ := os.MkdirTemp("", "twodip-example")
	defer os.RemoveAll(parent)
	path := parent + "/wall"
	if err := content.Start(path); err != nil {
		fmt.Println(err)
		return
	}
	dir := folder.At(path)
	look, err := run.LookAtPlan(dir, run.PlanWish{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d tiles would be new; is there a plan? %t\n", len(look.Added), dir.Has("tiles/plan.csv"))
	made, err := run.Plan(dir, run.PlanWish{})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d tiles are new; is there a plan? %t\n", len(made.Added), dir.Has("tiles/plan.csv"))
	// Output:
	// 9 tiles would be new; is there a plan? false
	// 9 tiles are new; is there a plan? true
}
