package web

import "sync"

// A key is a revision of a job: its text never changes, nor what follows from
// it.
type key struct {
	job string
	rev int
}

// kept is how many answers a cache holds. A floor of 40 frames takes some ten
// thousand bytes, a whole result a megabyte.
const kept = 32

// A cache keeps the answers asked for last.
type cache[T any] struct {
	mu   sync.Mutex
	have map[key]T
	last []key // the one asked for last at the end
}

func (c *cache[T]) get(k key) (v T, ok bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if v, ok = c.have[k]; ok {
		c.touch(k)
	}
	return v, ok
}

func (c *cache[T]) put(k key, v T) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.have == nil {
		c.have = map[key]T{}
	}
	c.have[k] = v
	c.touch(k)
	if len(c.last) > kept {
		delete(c.have, c.last[0])
		c.last = c.last[1:]
	}
}

func (c *cache[T]) touch(k key) {
	for i, other := range c.last {
		if other == k {
			c.last = append(c.last[:i], c.last[i+1:]...)
			break
		}
	}
	c.last = append(c.last, k)
}

// A hub tells windows of a job about changes.
type hub struct {
	mu      sync.Mutex
	windows map[string]map[chan news]bool
}

// news is a change as other windows hear of it.
type news struct {
	Rev int    `json:"rev"`
	By  string `json:"by"`
	Say string `json:"say"`
}

// listen gives the changes of a job until end is called. A window that is slow
// hears of the last one only: that is the one that counts.
func (h *hub) listen(job string) (c chan news, end func()) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.windows == nil {
		h.windows = map[string]map[chan news]bool{}
	}
	if h.windows[job] == nil {
		h.windows[job] = map[chan news]bool{}
	}
	c = make(chan news, 1)
	h.windows[job][c] = true
	return c, func() {
		h.mu.Lock()
		defer h.mu.Unlock()
		delete(h.windows[job], c)
		if len(h.windows[job]) == 0 {
			delete(h.windows, job)
		}
	}
}

func (h *hub) tell(job string, n news) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for c := range h.windows[job] {
		select {
		case <-c:
		default:
		}
		c <- n
	}
}
