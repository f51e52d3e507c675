package web

import (
	"net"
	"net/http"

	"kernbook/internal/app"
)

// bodyMost is the most that can be handed in at once, in bytes.
const bodyMost = 1 << 20

// policy lets a page load what it was served with, and nothing else.
const policy = "default-src 'none'; style-src 'self'; font-src 'self'; img-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// guard stands before every address: headers, the name the site was called by,
// posts from other sites, the size of what comes in.
func (s *Site) guard(next http.Handler) http.Handler {
	cross := http.NewCrossOriginProtection()
	cross.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.fail(w, r, s.refuse(app.Refused, "fail.cross-site"))
	}))
	inner := cross.Handler(next)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("X-Frame-Options", "DENY")
		h.Set("Referrer-Policy", "same-origin") // without it a form of this site would come with no origin
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Permissions-Policy", "camera=(), microphone=(), geolocation=()")
		h.Set("Cache-Control", "no-store")
		if !here(r.Host) { // a foreign name that was made to point at this computer
			s.fail(w, r, s.refuse(app.Refused, "fail.host"))
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, bodyMost)
		inner.ServeHTTP(w, r)
	})
}

// here says whether a name is one of this computer's own.
func here(hostport string) bool {
	host, _, err := net.SplitHostPort(hostport)
	if err != nil {
		host = hostport
	}
	if n := len(host); n > 2 && host[0] == '[' && host[n-1] == ']' {
		host = host[1 : n-1]
	}
	ip := net.ParseIP(host)
	return host == "localhost" || ip != nil && ip.IsLoopback()
}
