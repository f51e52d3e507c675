package doubt

import "errors"

// MostOpen is how many seen signs may be open at once in the fired-mask sum.
const MostOpen = 12

// ErrOpen says that more signs are open at once than the sum takes.
var ErrOpen = errors.New("more than 12 seen signs are open at once")

// Network is one examination of a belief that is still a product: modes and
// causes with priors into which unseen signs and readings are already
// multiplied, and the seen signs with their links. It answers by the
// fired-mask sum, a method of its own beside the explanations of Belief.
type Network struct {
	Whole  []Vec
	Local  []Vec // in order along the piece
	Causes [][2]float64
	Signs  []Sign
}

// Query narrows what is summed. The zero value asks for everything.
type Query struct {
	Mode            int // local mode held in State, when Hold
	Of              int // whole-piece mode held in State, when HoldWhole
	State           int
	Hold, HoldWhole bool
	Harmless        bool // sign Sign was shown by a harmless cause and by no damage link
	Sign            int
	In              func(whole bool, mode int) bool // modes that count as unfit; nil for all
	From            int                             // state from which a mode counts: Unfit, or Impaired for wear (then every state but sound counts)
}

// open is the running sum: a weight for every set of open signs already fired,
// apart for "no mode counts" and "some mode counts".
type open struct {
	slots []int // sign in each bit position
	w     [][2]float64
}

// link is one parent of one sign, with its chance to miss per state.
type link struct {
	sign int
	miss *Vec
}

// Sum gives the weight of all that was seen, apart for no counted mode and
// some counted mode. Both are sums of positive terms. Whole-piece modes that
// are parents of a seen sign are conditioned on first, the rest goes along the
// piece; a sign is open while some of its parents are done and some are not.
func (n *Network) Sum(q Query) (none, some float64, err error) {
	shared := make([]bool, len(n.Whole))
	for i := range n.Signs {
		for _, p := range n.Signs[i].Whole {
			shared[p.Mode] = true
		}
	}
	state := make([]int, len(n.Whole))
	err = n.condition(q, shared, state, 0, 1, false, &none, &some)
	return none, some, err
}

func (q *Query) counts(whole bool, mode, x int) bool {
	if q.In != nil && !q.In(whole, mode) {
		return false
	}
	if q.From == Impaired {
		return x >= Impaired
	}
	return x >= Unfit
}

// condition goes through the states of shared whole-piece modes.
func (n *Network) condition(q Query, shared []bool, state []int, k int, w float64, counted bool, none, some *float64) error {
	if k == len(n.Whole) {
		return n.along(q, shared, state, w, counted, none, some)
	}
	var rest [2]float64
	for x, p := range n.Whole[k] {
		if p == 0 || (q.HoldWhole && q.Of == k && q.State != x) {
			continue
		}
		if shared[k] {
			state[k] = x
			if err := n.condition(q, shared, state, k+1, float64(w*p), counted || q.counts(true, k, x), none, some); err != nil {
				return err
			}
			continue
		}
		if q.counts(true, k, x) {
			rest[1] += p
		} else {
			rest[0] += p
		}
	}
	if shared[k] {
		return nil
	}
	// a mode that is no parent only shares its weight out
	for c, p := range rest {
		if p == 0 {
			continue
		}
		if err := n.condition(q, shared, state, k+1, float64(w*p), counted || c == 1, none, some); err != nil {
			return err
		}
	}
	return nil
}

// along goes through the local modes, then the causes, then the leaks.
func (n *Network) along(q Query, shared []bool, state []int, w float64, counted bool, none, some *float64) error {
	last := make([]int, len(n.Signs))
	modeLinks := make([][]link, len(n.Local))
	causeLinks := make([][]link, len(n.Causes))
	for i := range n.Signs {
		s := &n.Signs[i]
		last[i] = -1
		for k := range s.Local {
			modeLinks[s.Local[k].Mode] = append(modeLinks[s.Local[k].Mode], link{i, &s.Local[k].Miss})
			last[i] = max(last[i], s.Local[k].Mode)
		}
		for k := range s.Causes {
			miss := Vec{1, s.Causes[k].Miss}
			causeLinks[s.Causes[k].Cause] = append(causeLinks[s.Causes[k].Cause], link{i, &miss})
			last[i] = max(last[i], len(n.Local)+s.Causes[k].Cause)
		}
	}
	o := open{w: [][2]float64{{}}}
	if counted {
		o.w[0][1] = w
	} else {
		o.w[0][0] = w
	}
	opened := make([]bool, len(n.Signs))
	visit := func(at int, links []link, p []float64, counts func(x int) bool, damage bool) error {
		for _, l := range links {
			if !opened[l.sign] {
				opened[l.sign] = true
				if err := o.begin(l.sign, n.base(l.sign, state), q); err != nil {
					return err
				}
			}
		}
		o.pass(links, p, counts, damage, q)
		for _, l := range links {
			if last[l.sign] == at {
				o.close(l.sign, n.Signs[l.sign].Leak, q)
			}
		}
		return nil
	}
	for m := range n.Local {
		p := n.Local[m]
		if q.Hold && q.Mode == m {
			p = Vec{}
			p[q.State] = n.Local[m][q.State]
		}
		if err := visit(m, modeLinks[m], p[:], func(x int) bool { return q.counts(false, m, x) }, true); err != nil {
			return err
		}
	}
	for c := range n.Causes {
		if err := visit(len(n.Local)+c, causeLinks[c], n.Causes[c][:], func(int) bool { return false }, false); err != nil {
			return err
		}
	}
	for i := range n.Signs {
		if last[i] < 0 { // only whole-piece modes and the leak can have shown it
			if err := o.begin(i, n.base(i, state), q); err != nil {
				return err
			}
			o.close(i, n.Signs[i].Leak, q)
		}
	}
	*none += o.w[0][0]
	*some += o.w[0][1]
	return nil
}

// base gives the chance that no whole-piece mode shows the sign, in these states.
func (n *Network) base(sign int, state []int) float64 {
	miss := 1.0
	for k := range n.Signs[sign].Whole {
		p := &n.Signs[sign].Whole[k]
		miss *= p.Miss[state[p.Mode]]
	}
	return miss
}

// begin opens a sign: already fired by whole-piece modes, or not yet.
func (o *open) begin(sign int, miss float64, q Query) error {
	if len(o.slots) >= MostOpen {
		return ErrOpen
	}
	o.slots = append(o.slots, sign)
	n := len(o.w)
	o.w = append(o.w, make([][2]float64, n)...)
	fired := 1 - miss
	if q.Harmless && q.Sign == sign {
		fired = 0
	}
	for m := range n {
		for c := range o.w[m] {
			o.w[n+m][c] = float64(o.w[m][c] * fired)
			o.w[m][c] *= miss
		}
	}
	return nil
}

// pass takes one parent in: for each of its states, each open sign of its links
// is fired or missed.
func (o *open) pass(links []link, p []float64, counts func(int) bool, damage bool, q Query) {
	sum := make([][2]float64, len(o.w))
	cur := make([][2]float64, len(o.w))
	for x, px := range p {
		if px == 0 {
			continue
		}
		for m := range o.w {
			cur[m][0], cur[m][1] = float64(o.w[m][0]*px), float64(o.w[m][1]*px)
		}
		for _, l := range links {
			bit := 1 << position(o.slots, l.sign)
			miss := l.miss[x]
			fired := 1 - miss
			held := q.Harmless && q.Sign == l.sign
			for m := range cur {
				if m&bit != 0 {
					continue
				}
				for c := range cur[m] {
					if !held || !damage {
						cur[m|bit][c] += float64(cur[m][c] * fired)
					}
					cur[m][c] *= miss
				}
			}
			if held && damage { // fired already by a harmless cause or not: no damage link may fire
				for m := range cur {
					if m&bit != 0 {
						cur[m][0] *= miss
						cur[m][1] *= miss
					}
				}
			}
		}
		to := 0
		if counts(x) {
			to = 1
		}
		for m := range cur {
			sum[m][to] += cur[m][0]
			sum[m][1] += cur[m][1]
		}
	}
	copy(o.w, sum)
}

// close takes the leak in, keeps what has fired, and frees the sign's bit.
func (o *open) close(sign int, leakMiss float64, q Query) {
	at := position(o.slots, sign)
	bit := 1 << at
	leak := 1 - leakMiss
	if q.Harmless && q.Sign == sign {
		leak = 0
	}
	kept := make([][2]float64, 0, len(o.w)/2)
	for m := range o.w {
		if m&bit != 0 {
			continue
		}
		f := o.w[m|bit]
		kept = append(kept, [2]float64{f[0] + float64(leak*o.w[m][0]), f[1] + float64(leak*o.w[m][1])})
	}
	o.w = kept
	o.slots = append(o.slots[:at:at], o.slots[at+1:]...)
}
