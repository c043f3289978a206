package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestCommittedPageIsCurrent makes the page anew: that also holds every module
// linked into the program to the list of licences allowed.
func TestCommittedPageIsCurrent(t *testing.T) {
	want, err := generate()
	if err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile(target)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Error("THIRD-PARTY.md is out of date: run make generate")
	}
}

const (
	mit  = "Copyright (c) 2020 Somebody\n\nPermission is hereby granted, free of charge, to any person obtaining a copy of this software ... to deal in the Software without\n restriction ... The above copyright notice and this permission notice shall be included"
	bsd2 = "Redistribution and use in source and binary forms ... Redistributions in binary form must reproduce ... this list of conditions and the following disclaimer in"
	bsd3 = bsd2 + " Neither the name of the copyright holder ... be used to endorse or promote products"
)

func TestClassify(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"MIT", mit, "MIT"},
		{"MIT in a comment", "/*\n * " + strings.ReplaceAll(mit, "\n", "\n * ") + "\n */", "MIT"},
		{"two clauses", bsd2, "BSD-2-Clause"},
		{"three clauses", bsd3, "BSD-3-Clause"},
		{"copyleft", "GNU GENERAL PUBLIC LICENSE Version 3, 29 June 2007", ""},
		{"copyleft below another", mit + "\n\nParts are under the GNU Lesser General Public License.", ""},
		{"weak copyleft", "Mozilla Public License Version 2.0", ""},
		{"no trade", mit + "\nFor non-commercial use only.", ""},
		{"nothing", "All rights reserved.", ""},
		{"empty", "", ""},
	} {
		if got := classify(c.text); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}

func TestClassifyOwnLicence(t *testing.T) {
	text, err := os.ReadFile(product + "/LICENSE")
	if err != nil {
		t.Fatal(err)
	}
	if got := classify(string(text)); got != "Apache-2.0" {
		t.Errorf("the project's own licence reads as %q", got)
	}
}

func TestPageRefuses(t *testing.T) {
	for name, m := range map[string]module{
		"no licence":     {Path: "a/b", Version: "v1.0.0"},
		"a notice alone": {Path: "a/b", Files: []file{{"NOTICE", mit}}},
		"unknown":        {Path: "a/b", Files: []file{{"LICENSE", "Ask me."}}},
		"one of two":     {Path: "a/b", Files: []file{{"LICENSE", mit}, {"fast/COPYING", "GNU General Public License"}}},
	} {
		if _, err := page([]module{m}); err == nil || !strings.Contains(err.Error(), "a/b") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestPagePrintsASharedTextOnce(t *testing.T) {
	got, err := page([]module{
		{"a/b", "v1.0.0", []file{{"LICENSE", mit + "\r\n"}, {"NOTICE", "Made by A."}}},
		{"c/d", "v2.0.0", []file{{"LICENSE.txt", mit + "\n\n"}}},
	})
	if err != nil {
		t.Fatal(err)
	}
	for want, times := range map[string]int{
		"| a/b | v1.0.0 | MIT |":               1,
		"- a/b, LICENSE\n- c/d, LICENSE.txt\n": 1,
		"Permission is hereby granted":         1,
		"Made by A.":                           1,
	} {
		if n := strings.Count(string(got), want); n != times {
			t.Errorf("%q appears %d times, want %d", want, n, times)
		}
	}
}

func TestTermsFindsTheFiles(t *testing.T) {
	root := t.TempDir()
	sub := filepath.Join(root, "font")
	if err := os.Mkdir(sub, 0o755); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"LICENSE", "license.go", "Licence.md", "README", "COPYING.LIB", "NOTICE", "SQLITE-LICENSE", "LICENSE-LOGO", "licensed.txt", "font/UNLICENSE", "font/PATENTS"} {
		if err := os.WriteFile(filepath.Join(root, name), []byte(name), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	files, err := terms(root, map[string]bool{root: true, sub: true})
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range files {
		names = append(names, f.Name)
	}
	const want = "COPYING.LIB LICENSE LICENSE-LOGO Licence.md NOTICE SQLITE-LICENSE font/PATENTS font/UNLICENSE"
	if got := strings.Join(names, " "); got != want {
		t.Errorf("found %s\nwant  %s", got, want)
	}
}
