package packet

import "strings"

// A webWriter gathers the page.
type webWriter struct {
	b strings.Builder
}

func (h headTwin) write(*webWriter)    {}
func (p paraTwin) write(*webWriter)    {}
func (l listTwin) write(*webWriter)    {}
func (f factsTwin) write(*webWriter)   {}
func (t ticksTwin) write(*webWriter)   {}
func (p pictureTwin) write(*webWriter) {}
func (t tableTwin) write(*webWriter)   {}
func (r rowTwin) write(*webWriter)     {}
