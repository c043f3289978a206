module bowerwright

go 1.26.0

require (
	codeberg.org/go-pdf/fpdf v0.12.0 // indirect
	github.com/alecthomas/kong v1.17.0 // indirect
	github.com/rogpeppe/go-internal v1.16.0 // indirect
	golang.org/x/image v0.47.0 // indirect
	pgregory.net/rapid v1.3.0 // indirect
)
