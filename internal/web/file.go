package web

import (
	"io/fs"
	"net/http"
	"path"

	"kernbook/internal/app"
)

// kinds of file that pages are made of.
var fileTypes = map[string]string{".css": "text/css; charset=utf-8", ".woff2": "font/woff2", ".md": "text/markdown; charset=utf-8", ".js": "text/javascript; charset=utf-8", ".wasm": "application/wasm"}

// The core for a page, and the script of Go that runs it.
const coreFile, execFile = "core.wasm", "wasm_exec.js"

// file gives a style sheet, a font, the script of the bench, or the core it runs.
func (s *Site) file(w http.ResponseWriter, r *http.Request) error {
	name := r.PathValue("name")
	if s.live != nil && (name == coreFile || name == execFile) {
		b := s.live.Exec
		if name == coreFile {
			b = s.live.Packed
			w.Header().Set("Content-Encoding", "gzip") // every browser that has WebAssembly takes it
		}
		w.Header().Set("Content-Type", fileTypes[path.Ext(name)])
		w.Header().Set("Cache-Control", "max-age=31536000, immutable") // another core has another address
		_, _ = w.Write(b)
		return nil
	}
	b, err := fs.ReadFile(static, "static/"+name)
	if err != nil {
		return s.refuse(app.NotFound, "fail.nowhere")
	}
	w.Header().Set("Content-Type", fileTypes[path.Ext(name)])
	w.Header().Set("Cache-Control", "max-age=3600")
	_, _ = w.Write(b) // who hung up needs no answer
	return nil
}
