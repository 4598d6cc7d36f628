// Command mutation asks whether the tests would notice a wrong program. It changes one
// thing at a time in the packages it is given, runs the tests of the package, and reports
// the changes that nothing noticed:
//
//	go run ./internal/mutation ./seawater/...               # one of each kind in a function or table
//	go run ./internal/mutation -all ./seawater/pss78        # everything
//	go run ./internal/mutation -kinds number -by 9 ./mix    # numbers tenfold
//
// The kinds of change:
//
//	number      a number, by a hundredth of it or by -by; whole ones by one
//	bound       < becomes <=, > becomes >=, and back
//	comparison  < becomes >=, == becomes !=, and so on: the opposite
//	sign        + becomes -, a minus is dropped, * becomes /
//	return      an error is returned as nil, a value as the zero value
//	boolean     && becomes ||, a ! is dropped
//
// No file is touched: the go command overlays changed ones. All changes of a package are
// compiled into one test program, which makes the one that an environment variable names;
// so a change costs one run of the tests and no compilation. Constants cannot be chosen
// when a program runs: they are compiled one by one.
package main

import (
	"flag"
	"fmt"
	"os"
	"slices"
	"strings"
)

func main() {
	var o options
	flag.BoolVar(&o.all, "all", false, "change everything, not one of each kind in a function or table")
	flag.Float64Var(&o.by, "by", 1e-2, "how far a number is changed, as a part of it; 9 is tenfold")
	flag.BoolVar(&o.list, "list", false, "list the changes and make none")
	kinds := flag.String("kinds", strings.Join(allKinds, ","), "the kinds of change")
	flag.Parse()
	o.kinds = strings.Split(*kinds, ",")
	for _, k := range o.kinds {
		if !slices.Contains(allKinds, k) {
			fmt.Fprintf(os.Stderr, "mutation: no kind %q, want of %s\n", k, strings.Join(allKinds, ", "))
			os.Exit(2)
		}
	}
	survivors, err := run(o, flag.Args(), os.Stdout)
	if err != nil {
		fmt.Fprintln(os.Stderr, "mutation:", err)
		os.Exit(2)
	}
	if survivors > 0 {
		os.Exit(1)
	}
}
