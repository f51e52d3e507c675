package web

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"time"
)

// Listen opens an address for the pages. It takes loopback addresses only:
// there are no accounts yet, so whoever reaches the pages can write.
func Listen(addr string) (net.Listener, error) {
	host, _, err := net.SplitHostPort(addr)
	if err != nil {
		return nil, fmt.Errorf("%q is no address to listen on: write one such as 127.0.0.1:8765", addr)
	}
	if ip := net.ParseIP(host); host != "localhost" && (ip == nil || !ip.IsLoopback()) {
		return nil, fmt.Errorf("the pages are served to this computer alone, since there are no accounts yet: %q reaches further; write 127.0.0.1 or [::1] before the port", addr)
	}
	l, err := net.Listen("tcp", addr)
	if err != nil {
		return nil, fmt.Errorf("%w: choose another port, or 0 for any that is free", err)
	}
	if a, ok := l.Addr().(*net.TCPAddr); !ok || !a.IP.IsLoopback() { // "localhost" may be something else here
		return nil, errors.Join(fmt.Errorf("%q reaches further than this computer: write 127.0.0.1 or [::1] before the port", addr), l.Close())
	}
	return l, nil
}

// Serve serves the pages until the context ends, and lets what is under way end.
func (s *Site) Serve(ctx context.Context, l net.Listener) error {
	server := &http.Server{
		Handler:           s.Handler(),
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       30 * time.Second,
		WriteTimeout:      60 * time.Second,
		IdleTimeout:       2 * time.Minute,
		MaxHeaderBytes:    64 << 10,
	}
	done := make(chan error, 1)
	go func() { done <- server.Serve(l) }()
	select {
	case err := <-done:
		return err
	case <-ctx.Done():
	}
	end, cancel := context.WithTimeout(context.Background(), 10*time.Second)
	defer cancel()
	err := server.Shutdown(end)
	if served := <-done; !errors.Is(served, http.ErrServerClosed) {
		err = errors.Join(err, served)
	}
	return err
}
