package impure

func beside(x int) int {
	c := make(chan int) // bad: chan
	go func() {         // bad: go
		c <- x // bad: chan
	}()
	select { // bad: select
	case y := <-c: // bad: chan
		x = y
	default:
	}
	print(x)   // bad: print
	println(x) // bad: print
	return x
}
