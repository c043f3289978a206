package main

import (
	"path"
	"strings"
)

// A licence is known by the phrases that all its copies share. The names are
// those of the SPDX list.
type licence struct {
	name string
	says []string
}

// allowed are the licences the product may carry: all permit use, change and
// sale with an Apache-2.0 program, on no more than keeping the notice. A licence
// that asks more is not added here without a decision in the project.
//
// The order matters where one text contains another's phrases: the first that
// fits is taken.
var allowed = []licence{
	{"Apache-2.0", []string{"apache license", "version 2.0, january 2004", "grant of patent license"}},
	{"OFL-1.1", []string{"sil open font license version 1.1"}},
	{"BSD-3-Clause", []string{"redistribution and use in source and binary forms", "binary form must reproduce", "neither the name", "endorse or promote"}},
	{"BSD-2-Clause", []string{"redistribution and use in source and binary forms", "binary form must reproduce", "this list of conditions and the following disclaimer"}},
	{"MIT", []string{"permission is hereby granted, free of charge", "to deal in the software without restriction", "the above copyright notice and this permission notice"}},
	{"ISC", []string{"permission to use, copy, modify, and/or distribute this software for any purpose with or without fee", "the above copyright notice and this permission notice appear in all copies"}},
	{"ISC", []string{"permission to use, copy, modify, and distribute this software for any purpose with or without fee", "the above copyright notice and this permission notice appear in all copies"}},
	{"Zlib", []string{"this software is provided 'as-is'", "altered source versions must be plainly marked"}},
	{"CC0-1.0", []string{"cc0 1.0 universal"}},
	{"blessing", []string{"the author disclaims copyright to this source code", "may you do good and not evil"}}, // SQLite's dedication to the public
}

// barring are phrases of terms that are not allowed, whatever else the file
// says: a second licence below a first, a ban on trade.
var barring = []string{
	"gnu general public license", "gnu lesser general public license", "gnu affero general public license",
	"mozilla public license", "server side public license", "business source license", "commons clause",
	"non-commercial", "noncommercial", "not be used for commercial",
}

// classify names the licence of a text, "" when it is not one that is allowed.
func classify(text string) string {
	flat := plain(text)
	for _, bad := range barring {
		if strings.Contains(flat, bad) {
			return ""
		}
	}
	for _, l := range allowed {
		if containsAll(flat, l.says) {
			return l.name
		}
	}
	return ""
}

func containsAll(text string, phrases []string) bool {
	for _, p := range phrases {
		if !strings.Contains(text, p) {
			return false
		}
	}
	return true
}

// plain puts a text in lower case with single spaces, the marks of comments and
// the two curly quotes gone, so that line breaks do not hide a phrase.
func plain(text string) string {
	text = strings.NewReplacer("“", `"`, "”", `"`, "‘", "'", "’", "'").Replace(strings.ToLower(text))
	words := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" \t\r\n*#/", r) })
	return strings.Join(words, " ")
}

// readByHand are files that a person has read, since their phrases mislead: by
// module and name the licence, "" for what is none of what is linked. They are
// carried along like the others.
var readByHand = map[[2]string]string{
	// Where the project's logo, which is not in the program, comes from.
	{"modernc.org/memory", "LICENSE-LOGO"}: "",
	// SQLite's dedication in the words of its copyright page: "for any purpose,
	// commercial or non-commercial".
	{"modernc.org/sqlite", "LICENSE-SQLITE"}: "blessing",
	// A list of the notices of others. Those of its section 1, of what is linked,
	// are MIT, BSD-3-Clause and SQLite's dedication; MPL-2.0 is that of a module
	// in section 3, of what is in no build.
	{"modernc.org/sqlite", "LICENSE-3RD-PARTY.md"}: "",
}

// isLicence tells a licence from what stands beside one and is only carried
// along: a notice, or a grant of patents that takes nothing away.
func isLicence(name string) bool {
	base := strings.ToLower(path.Base(name))
	return !strings.HasPrefix(base, "notice") && !strings.HasPrefix(base, "patents")
}
