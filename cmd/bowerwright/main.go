// Command bowerwright turns a job file into what to buy, how to saw it, and
// the papers.
package main

import (
	"os"

	"bowerwright/internal/cli"
)

// version is set when a release is built.
var version = "dev"

func main() { os.Exit(cli.Run(version)) }
