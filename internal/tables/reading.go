package tables

import (
	"math"
	"slices"

	"kernbook/internal/core/kit"
	"kernbook/internal/core/table"
	"kernbook/internal/doc"
)

func (f *kindFile) reads() {
	for _, t := range f.root.List("read", doc.Optional) {
		q := table.Quantity{
			ID: t.Str("id", doc.Required), Words: t.Str("words", doc.Required), Mode: t.Str("mode", doc.Required),
			Basis: t.OneOf("basis", doc.Required, "own", "absolute"), Mu: f.three(t, "mu"), Sigma: f.three(t, "sigma"),
			Nu: int(f.whole(t, "nu", doc.Required)), Slip: f.share(t, "slip", doc.Required), SlipC: f.num(t, "slip_c", doc.Required),
			Error: t.Length("error", doc.Required), Shared: f.rate(t, "shared", doc.Required), Out: f.mille(t, "out"),
			Sign: t.Str("sign", doc.Required), Grows: t.Bool("grows", doc.Required), Cite: f.cite(f.file, t),
		}
		f.once(t, "id", q.ID)
		if q.Mode != "" && f.mode(q.Mode) == nil {
			t.Fault("mode", "names the mode “"+q.Mode+"”, which this kind does not have", "correct it, or add the mode")
		}
		if q.Sign != "" && !slices.Contains(f.signs, q.Sign) {
			t.Fault("sign", "names “"+q.Sign+"”, which is no sign of this kind", "correct it, or add the sign")
		}
		for _, s := range q.Sigma {
			if s <= 0 {
				t.Fault("sigma", "holds a spread that is not above 0", "write three spreads above 0")
			}
		}
		switch {
		case q.Nu < 1 || q.Nu > 1000:
			t.Fault("nu", "is no number of degrees of freedom", "write a whole number from 1, such as 4")
		case q.Slip <= 0 || q.Slip >= 1:
			t.Fault("slip", "is not between 0 and 1", "write the share of slips, above 0 so that one slip cannot decide alone")
		case q.SlipC <= 0:
			t.Fault("slip_c", "is not above 0", "write the density of a slip")
		case q.Error <= 0:
			t.Fault("error", "is nothing", "write the standard error of one value")
		case q.Basis == "own" && (q.Shared > 1 || q.Out <= -1000):
			t.Fault("out", "or shared is more than all of the first record", "write shares of the first record")
		case q.Out == 0:
			t.Fault("out", "is no change at all", "write the change beyond which a value is out of range, negative for a fall")
		}
		f.k.Reads = append(f.k.Reads, q)
	}
	for _, t := range f.root.List("limit", doc.Optional) {
		f.limit(t)
	}
}

// mille reads a number that decides as whole thousandths of its unit, so that
// nothing is compared on a rounded one.
func (f *kindFile) mille(t doc.T, col string) int64 {
	v := float64(f.num(t, col, doc.Required) * 1000)
	n := math.Round(v)
	if math.Abs(v-n) > 1e-6 {
		t.Fault(col, "is no whole number of thousandths", "write three places after the point at most")
	}
	return int64(n)
}

// three reads three numbers: for sound, findable impaired and findable unfit.
func (f *kindFile) three(t doc.T, col string) (out [3]float64) {
	f.unit(t, col)
	list := t.Floats(col, doc.Required)
	if len(list) != 3 {
		t.Fault(col, "is not three numbers", "write one for sound, one for impaired and one for unfit")
	}
	copy(out[:], list)
	return out
}

func (f *kindFile) limit(t doc.T) {
	of := t.Str("of", doc.Required)
	x := table.Limit{
		At: t.Length("at", doc.Optional), Share: f.whole(t, "per_mille", doc.Optional), Below: t.Bool("below", doc.Required),
		Verdict: verdict(t, "verdict", doc.Required), Words: t.Str("words", doc.Required), Cite: f.cite(f.file, t),
	}
	x.Lines = x.Source
	f.once(t, "of", of, x.At.String(), number(float64(x.Share)))
	if (x.At == 0) == (x.Share == 0) {
		t.Fault("", "needs one of at and per_mille, above or below 0", "write at = \"1 mm\", or per_mille = -100 for a tenth less than at first")
	}
	if x.Verdict == kit.Withdraw && len(x.Lines) == 0 {
		t.Fault("source", "is empty on a limit that withdraws", "name the line it rests on")
	}
	q := f.k.Quantity(of)
	if q == nil {
		if of != "" {
			t.Fault("of", "names “"+of+"”, which is no quantity of this kind", "correct it, or add a [[read]] row")
		}
		return
	}
	q.Limits = append(q.Limits, x)
}
