package evidence

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// ratioInR finds the score interval of a risk ratio from its definition alone:
// the likeliest pair of shares with a given ratio by R's optimizer, the points
// where the score statistic is the 95 % quantile by R's root finder.
const ratioInR = `
score <- function(f, x1, n1, x2, n2) {
  like <- function(p) dbinom(x1, n1, f*p, log=TRUE) + dbinom(x2, n2, p, log=TRUE)
  p2 <- optimize(like, c(1e-12, min(1, 1/f) - 1e-12), maximum=TRUE, tol=1e-14)$maximum
  p1 <- f*p2
  (x1/n1 - f*x2/n2)^2 / (p1*(1-p1)/n1 + f^2*p2*(1-p2)/n2)
}
bounds <- function(x1, n1, x2, n2) {
  g <- function(l) score(exp(l), x1, n1, x2, n2) - qchisq(0.95, 1)
  m <- log(x1/n1) - log(x2/n2)
  for (to in c(-12, 12)) cat(format(exp(uniroot(g, sort(c(m, m + to)), tol=1e-12)$root), digits=12), '\n')
}
`

// The same tables are put to R, where it is installed.
func TestAgainstR(t *testing.T) {
	r, err := exec.LookPath("R")
	if err != nil {
		if os.Getenv("TWODIP_ALL") != "" {
			t.Fatal("R is not installed, and TWODIP_ALL asks for every check")
		}
		t.Skip("R is not installed: the live comparison is left out; the kept values are tested")
	}
	tables := []Table{
		{9, 11, 4, 160}, {3, 4, 1, 4}, {2, 17, 10, 13}, {12, 20, 40, 1980}, {0, 9, 7, 31}, {150, 900, 90, 1100}, {36, 40, 16, 80},
	}
	var script strings.Builder
	var want []float64
	for _, x := range tables {
		fmt.Fprintf(&script, "cat(format(fisher.test(matrix(c(%d,%d,%d,%d),2))$p.value,digits=15),'\\n')\n",
			x.WithFaults, x.With-x.WithFaults, x.WithoutFaults, x.Without-x.WithoutFaults)
		want = append(want, Exact(x).P)
		fmt.Fprintf(&script, "cat(format(prop.test(%d,%d,correct=FALSE)$conf.int,digits=15),sep='\\n')\ncat('\\n')\n", x.WithFaults, x.With)
		rate := Rate(x.WithFaults, x.With)
		want = append(want, rate.Low, rate.High)
	}
	script.WriteString(ratioInR)
	for _, x := range tables {
		if x.WithFaults == 0 {
			continue // its lower bound is 0, which a logarithm does not reach
		}
		ratio, _ := Ratio(x)
		fmt.Fprintf(&script, "bounds(%d,%d,%d,%d)\n", x.WithFaults, x.With, x.WithoutFaults, x.Without)
		want = append(want, ratio.Low, ratio.High)
	}
	script.WriteString("r<-mantelhaen.test(UCBAdmissions,exact=TRUE)\ncat(format(r$p.value,digits=15),'\\n')\n")
	want = append(want, berkeley.Exact().P)
	file := filepath.Join(t.TempDir(), "tables.R")
	require.NoError(t, os.WriteFile(file, []byte(script.String()), 0o600))
	cmd := exec.Command(r, "--vanilla", "--quiet", "--no-echo", "-f", file)
	out, err := cmd.Output()
	require.NoError(t, err)
	got := strings.Fields(string(out))
	require.Len(t, got, len(want))
	for i := range want {
		v, err := strconv.ParseFloat(got[i], 64)
		require.NoError(t, err)
		require.InDelta(t, v, want[i], 1e-9+1e-5*v, "value %d", i)
	}
}
