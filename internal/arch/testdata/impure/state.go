package impure

type counter struct{ n int }

func (c *counter) up()     { c.n++ }
func (c counter) get() int { return c.n }

var (
	total   int
	table   = [3]int{1, 2, 3}
	byName  = map[string]int{}
	list    []int
	box     counter
	pointer = new(counter)
)

func init() { // bad: init
	total = 1 // bad: state
}

func changes(x int) int {
	total++                     // bad: state
	total += x                  // bad: state
	(total) = x                 // bad: state
	table[0] = x                // bad: state
	table[1]--                  // bad: state
	byName["a"] = x             // bad: state
	delete(byName, "a")         // bad: state
	clear(byName)               // bad: state
	copy(list, []int{1})        // bad: state
	box.n = x                   // bad: state
	pointer.n = x               // bad: state
	*pointer = counter{}        // bad: state
	box.up()                    // bad: state
	pointer.up()                // bad: state
	keep := &total              // bad: state
	other := &table[2]          // bad: state
	more := append(list[:0], x) // bad: state
	for total = range x {       // bad: state
	}
	return *keep + *other + len(more)
}

// reads is all as it should be: package variables are only read, and what
// changes is local, also where it has the same name.
func reads(x int) int {
	total := x
	total++
	table := table
	table[0] = total
	p := &table[1]
	*p = 3
	mine := counter{}
	mine.up()
	all := append(list, x)
	return box.get() + byName["a"] + len(all) + table[0] + mine.n
}

func (c *counter) init() { c.n = 0 }
