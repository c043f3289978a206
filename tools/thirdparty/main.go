// Command thirdparty writes THIRD-PARTY.md: every module whose code ends up in
// the program, for any system it is released for, with the licence that its own
// files state. It stops on a licence that is not on the list of those allowed,
// and on a module that states none.
//
// It reads the module cache, so the modules have to be downloaded, and runs the
// go command. It is run from its own folder.
package main

import (
	"fmt"
	"os"
)

const (
	product = "../.."             // the folder of the product's module
	command = "./cmd/bowerwright" // what is released
	target  = "../../THIRD-PARTY.md"
)

func main() {
	text, err := generate()
	if err == nil {
		err = os.WriteFile(target, text, 0o644)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "thirdparty:", err)
		os.Exit(1)
	}
}

func generate() ([]byte, error) {
	modules, err := linked(product, command)
	if err != nil {
		return nil, err
	}
	return page(modules)
}
