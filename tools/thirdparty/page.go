package main

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
)

const opening = `# Third-party software

Made by ` + "`make generate`" + ` from the modules linked into the program; do not edit. bowerwright itself is under Apache-2.0, see LICENSE.

## In the program

| module | version | licence |
|---|---|---|
`

// page writes the whole of THIRD-PARTY.md, or says everything that is wrong with
// the modules' licences. A text that several modules share word for word is
// printed once.
func page(modules []module) ([]byte, error) {
	var out bytes.Buffer
	var faults []error
	var texts []string
	users := map[string][]string{}
	out.WriteString(opening)
	for _, m := range modules {
		names, err := licences(m)
		if err != nil {
			faults = append(faults, err)
			continue
		}
		fmt.Fprintf(&out, "| %s | %s | %s |\n", m.Path, m.Version, strings.Join(names, ", "))
		for _, f := range m.Files {
			text := tidy(f.Text)
			if users[text] == nil {
				texts = append(texts, text)
			}
			users[text] = append(users[text], m.Path+", "+f.Name)
		}
	}
	if len(faults) > 0 {
		return nil, errors.Join(faults...)
	}
	out.WriteString("\n## Texts\n")
	for _, text := range texts {
		out.WriteString("\n")
		for _, u := range users[text] {
			fmt.Fprintf(&out, "- %s\n", u)
		}
		fmt.Fprintf(&out, "\n```text\n%s\n```\n", text)
	}
	return out.Bytes(), nil
}

// licences names the licences of a module's files, each once, in order.
func licences(m module) ([]string, error) {
	var names []string
	for _, f := range m.Files {
		if !isLicence(f.Name) {
			continue
		}
		name, read := readByHand[[2]string{m.Path, f.Name}]
		if !read {
			name = classify(f.Text)
		}
		if read && name == "" {
			continue
		}
		if name == "" {
			return nil, fmt.Errorf("%s %s: the licence in %s is not one of those allowed", m.Path, m.Version, f.Name)
		}
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("%s %s: no licence found", m.Path, m.Version)
	}
	slices.Sort(names)
	return names, nil
}

// tidy takes off what does not print: carriage returns, spaces at the ends of
// lines, empty lines around the text.
func tidy(text string) string {
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		lines[i] = strings.TrimRight(line, " \t\r\f")
	}
	return strings.Trim(strings.Join(lines, "\n"), "\n")
}
