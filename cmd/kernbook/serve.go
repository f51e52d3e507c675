package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"sync"
	"syscall"

	"github.com/spf13/cobra"

	"kernbook/internal/web"
	"kernbook/internal/yard"
)

// ready has every piece judged while nobody has asked for a page yet, and gives what
// waits until that has ended.
func ready(ctx context.Context, y *yard.Yard) (wait func()) {
	var done sync.WaitGroup
	done.Go(func() {
		defer func() { _ = recover() }() // as any fault here: who asks for the page is told
		_, _ = y.Board(ctx, y.Today())
		hurry(false) // from here on it goes on for days
	})
	return done.Wait
}

// serving is what serve prints once it listens.
type serving struct {
	Address string `json:"address"`
	Yard    string `json:"yard"`
}

func newServe() *cobra.Command {
	var f bookFlags
	var listen string
	c := &cobra.Command{
		Use:   "serve",
		Short: "Show the yard's pages to a browser on this computer",
		Long: `serve shows the yard's book as pages to a browser on this computer, and takes
what is entered there. There are no accounts yet, so it listens on loopback
addresses only. An interrupt ends it once what is under way is done.`,
		Example: `  kernbook serve --yard yard
  kernbook serve --yard yard --listen 127.0.0.1:9000`,
		Args: none,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return f.with(func(y *yard.Yard) error {
				l, err := web.Listen(listen)
				if err != nil {
					return status{exitUsage, err}
				}
				ctx, stop := signal.NotifyContext(cmd.Context(), os.Interrupt, syscall.SIGTERM)
				defer stop()
				address := "http://" + l.Addr().String() + "/"
				if f.json {
					err = printJSON(cmd, serving{address, f.dir})
				} else {
					_, err = fmt.Fprintln(cmd.OutOrStdout(), address)
				}
				if err != nil {
					return errors.Join(err, l.Close())
				}
				defer ready(ctx, y)()
				if err := web.New(y.App).Serve(ctx, l); err != nil {
					return status{exitFailed, err}
				}
				return nil
			})
		},
	}
	f.flags(c, false)
	c.Flags().StringVar(&listen, "listen", "127.0.0.1:8765", "the loopback `ADDRESS` and port")
	return c
}
