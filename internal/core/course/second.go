package course

import "kernbook/internal/core/doubt"

// The second method: while the day's looks go into the belief, the same
// likelihoods are gathered into a network, if the belief was still a product
// before them. The fired-mask sum over the network must give the same doubt.

// gather starts a network from a belief with no sign on record.
func (c *Course) gather() {
	c.net = nil
	if c.Trace == nil || c.err != nil || !c.b.Product() {
		return
	}
	c.net = &doubt.Network{}
	for w := range c.m.Whole {
		c.net.Whole = append(c.net.Whole, c.b.WholeMode(w))
	}
	for l := range c.m.Local {
		v := doubt.Vec{1}
		if !c.m.Cells[c.m.Local[l].Cell].Gone { // what was cut off carries nobody
			v = c.b.Local(l)
		}
		c.net.Local = append(c.net.Local, v)
	}
}

// Network gives the network of the day's looks, or nil when the belief was no
// product before them or something else has happened since.
func (c *Course) Network() *doubt.Network { return c.net }

func (c *Course) weighWhole(w int, v *doubt.Vec) {
	if c.err != nil {
		return
	}
	c.b.WeighWhole(w, v)
	if c.net != nil {
		c.net.Whole[w].Times(v)
	}
}

func (c *Course) weighLocal(l int, v *doubt.Vec) {
	if c.err != nil {
		return
	}
	c.b.WeighLocal(l, v)
	if c.net != nil {
		c.net.Local[l].Times(v)
	}
}

func (c *Course) weighCause(i int, absent, present float64) {
	if c.err != nil {
		return
	}
	c.b.WeighCause(i, absent, present)
	if c.net != nil {
		c.net.Causes[i][0] *= absent
		c.net.Causes[i][1] *= present
	}
}

// addCause gives the engine's index of a new cause, or -1 when there is no
// belief to put it into.
func (c *Course) addCause(prior float64) int {
	if c.err != nil {
		return -1
	}
	i := c.b.AddCause(prior)
	if c.net != nil {
		c.net.Causes = append(c.net.Causes, [2]float64{1 - prior, prior})
	}
	return i
}

// seeSign gives the engine's index of a sign, or -1 when the belief cannot take
// it in.
func (c *Course) seeSign(s doubt.Sign) int {
	if c.err != nil {
		return -1
	}
	id, err := c.b.See(s)
	if err != nil {
		c.fail(err)
		return -1
	}
	if c.net != nil {
		c.net.Signs = append(c.net.Signs, s)
	}
	return id
}
