package arch

import (
	"go/ast"
	"go/token"
	"go/types"
)

// node looks at one node of the source.
func (v *visit) node(n ast.Node) {
	switch n := n.(type) {
	case *ast.GoStmt:
		v.add(n.Pos(), ruleGo, "starts a goroutine")
	case *ast.SelectStmt:
		v.add(n.Pos(), ruleSelect, "selects")
	case *ast.ChanType:
		v.add(n.Pos(), ruleChan, "a channel")
	case *ast.SendStmt:
		v.add(n.Pos(), ruleChan, "sends on a channel")
		return
	case *ast.FuncDecl:
		if n.Name.Name == "init" && n.Recv == nil {
			v.add(n.Pos(), ruleInit, "func init")
		}
	case *ast.RangeStmt:
		if isMap(v.info.TypeOf(n.X)) && !v.orderSaid(n.Pos()) {
			v.add(n.Pos(), ruleMapOrder, "ranges over a map")
		}
		if n.Tok == token.ASSIGN {
			v.writes(n.Key)
			v.writes(n.Value)
		}
	case *ast.AssignStmt:
		if n.Tok != token.DEFINE {
			for _, left := range n.Lhs {
				v.writes(left)
			}
		}
		if n.Tok == token.ADD_ASSIGN || n.Tok == token.SUB_ASSIGN {
			v.product(n.Rhs[0])
		}
	case *ast.IncDecStmt:
		v.writes(n.X)
	case *ast.UnaryExpr:
		switch n.Op {
		case token.ARROW:
			v.add(n.Pos(), ruleChan, "receives from a channel")
		case token.AND:
			if name := v.packageVar(n.X); name != "" {
				v.add(n.Pos(), ruleState, "takes the address of package variable %s, through which it can be changed", name)
			}
		}
	case *ast.BinaryExpr:
		if n.Op == token.ADD || n.Op == token.SUB {
			v.product(n.X)
			v.product(n.Y)
		}
	case *ast.CallExpr:
		v.call(n)
	case *ast.SelectorExpr:
		v.method(n)
	case *ast.Ident:
		v.use(n)
	}
}

// call looks for built-in functions that print or that change their argument.
func (v *visit) call(n *ast.CallExpr) {
	id, ok := ast.Unparen(n.Fun).(*ast.Ident)
	if !ok {
		return
	}
	if _, ok := v.info.Uses[id].(*types.Builtin); !ok {
		return
	}
	switch id.Name {
	case "print", "println":
		v.add(n.Pos(), rulePrint, "%s", id.Name)
	case "delete", "clear", "copy":
		v.writes(n.Args[0])
	case "append": // append(v[:n], …) overwrites what lies behind n
		if _, ok := ast.Unparen(n.Args[0]).(*ast.SliceExpr); ok {
			v.writes(n.Args[0])
		}
	}
}

// method looks for calls through the address of a package variable.
func (v *visit) method(n *ast.SelectorExpr) {
	sel := v.info.Selections[n]
	if sel == nil || sel.Kind() != types.MethodVal {
		return
	}
	fn, ok := sel.Obj().(*types.Func)
	if !ok {
		return
	}
	_, byPointer := fn.Signature().Recv().Type().(*types.Pointer)
	if name := v.packageVar(n.X); name != "" && byPointer {
		v.add(n.Pos(), ruleState, "%s may change package variable %s, whose address it takes", fn.Name(), name)
	}
}

// use looks at what an identifier stands for, however it was imported.
func (v *visit) use(id *ast.Ident) {
	obj := v.info.Uses[id]
	if obj == nil || obj.Pkg() == nil {
		return
	}
	_, isFunc := obj.(*types.Func)
	topLevel := obj.Parent() == obj.Pkg().Scope()
	if !topLevel {
		return
	}
	switch path, name := obj.Pkg().Path(), obj.Name(); {
	case path == "math" && isFunc && !exactMath[name]:
		v.add(id.Pos(), ruleMath, "math.%s", name)
	case path == "fmt" && !allowedFmt[name]:
		v.add(id.Pos(), ruleFmt, "fmt.%s", name)
	case path == "iter" && isFunc: // Pull and Pull2 run the sequence beside
		v.add(id.Pos(), ruleGo, "iter.%s", name)
	case path == "maps" && luckyMaps[name] && !v.sortedAtOnce() && !v.orderSaid(id.Pos()):
		v.add(id.Pos(), ruleMaps, "maps.%s", name)
	}
}

// sortedAtOnce says whether the identifier being looked at is the function of
// a call that is the argument of slices.Sorted.
func (v *visit) sortedAtOnce() bool {
	// … CallExpr(slices.Sorted) > CallExpr(maps.Keys) > SelectorExpr > Ident
	if len(v.stack) < 3 {
		return false
	}
	outer, ok := v.stack[len(v.stack)-3].(*ast.CallExpr)
	if !ok {
		return false
	}
	sel, ok := ast.Unparen(outer.Fun).(*ast.SelectorExpr)
	if !ok {
		return false
	}
	fn := v.info.Uses[sel.Sel]
	return fn != nil && fn.Pkg() != nil && fn.Pkg().Path() == "slices" && fn.Name() == "Sorted"
}

// writes adds a finding when an expression that is written to is, or lies in,
// a package variable.
func (v *visit) writes(x ast.Expr) {
	if x == nil {
		return
	}
	if name := v.packageVar(x); name != "" {
		v.add(x.Pos(), ruleState, "changes package variable %s", name)
	}
}

// packageVar returns the name of the package variable that x is, is a part of,
// or points into, or "".
func (v *visit) packageVar(x ast.Expr) string {
	for {
		switch e := x.(type) {
		case *ast.ParenExpr:
			x = e.X
		case *ast.IndexExpr:
			x = e.X
		case *ast.SliceExpr:
			x = e.X
		case *ast.StarExpr:
			x = e.X
		case *ast.SelectorExpr:
			if v.info.Selections[e] == nil { // package.Variable
				x = e.Sel
			} else {
				x = e.X
			}
		case *ast.Ident:
			obj, ok := v.info.Uses[e].(*types.Var)
			if ok && obj.Pkg() != nil && obj.Parent() == obj.Pkg().Scope() {
				return obj.Name()
			}
			return ""
		default:
			return ""
		}
	}
}

// product adds a finding when a summand is a product of floats that is not
// rounded by a conversion first.
func (v *visit) product(x ast.Expr) {
	for {
		switch e := x.(type) {
		case *ast.ParenExpr:
			x = e.X
			continue
		case *ast.UnaryExpr:
			if e.Op == token.SUB || e.Op == token.ADD {
				x = e.X
				continue
			}
		case *ast.BinaryExpr:
			tv := v.info.Types[e]
			if e.Op == token.MUL && tv.Value == nil && isFloat(tv.Type) {
				v.add(e.Pos(), ruleProduct, "adds a product")
			}
		}
		return
	}
}

// isMap and isFloat also hold for type parameters that can be such a type.
func isMap(t types.Type) bool {
	return anyOf(t, func(u types.Type) bool { _, ok := u.(*types.Map); return ok })
}

func isFloat(t types.Type) bool {
	return anyOf(t, func(u types.Type) bool {
		b, ok := u.(*types.Basic)
		return ok && b.Info()&(types.IsFloat|types.IsComplex) != 0
	})
}

// anyOf says whether the type, or one a type parameter allows, passes.
func anyOf(t types.Type, is func(types.Type) bool) bool {
	if t == nil {
		return false
	}
	if _, ok := types.Unalias(t).(*types.TypeParam); !ok {
		return is(t.Underlying())
	}
	return anyAllowed(t.Underlying().(*types.Interface), is)
}

func anyAllowed(limits *types.Interface, is func(types.Type) bool) bool {
	one := func(t types.Type) bool {
		if inner, ok := t.Underlying().(*types.Interface); ok {
			return anyAllowed(inner, is)
		}
		return is(t.Underlying())
	}
	for i := range limits.NumEmbeddeds() {
		union, ok := limits.EmbeddedType(i).(*types.Union)
		if !ok {
			if one(limits.EmbeddedType(i)) {
				return true
			}
			continue
		}
		for j := range union.Len() {
			if one(union.Term(j).Type()) {
				return true
			}
		}
	}
	return false
}
