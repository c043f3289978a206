// Package jobfile reads a job file, and the shop file under it, into a
// job.Spec, and says what is to be put right in them.
//
// Both are YAML written by hand. Every scalar is read by its text, so that
// what stands in the file is what is meant: 010 is refused and not 8. Lengths
// carry their unit, unless the file names one for bare numbers. What the file
// says about a field goes over what the shop file says, field by field.
//
// One table of fields (tables.go) is behind the reader, the JSON Schema and
// the reference in docs/job-file.md; the shapes in it are job.Shapes.
//
// Read finds all snags at once; only what cannot be read as YAML at all hides
// the rest. The package does not know whether a job can be built: job.Plan
// does, and File.Locate finds the line that one of its snags is about.
package jobfile

//go:generate go test -run TestGenerated -count=1 . -generate
