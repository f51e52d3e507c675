package web

import (
	"io/fs"
	"net/http"
	"path"

	"kernbook/internal/app"
)

// kinds of file that pages are made of.
var fileTypes = map[string]string{".css": "text/css; charset=utf-8", ".woff2": "font/woff2", ".md": "text/markdown; charset=utf-8"}

// file gives a style sheet or a font.
func (s *Site) file(w http.ResponseWriter, r *http.Request) error {
	name := r.PathValue("name")
	b, err := fs.ReadFile(static, "static/"+name)
	if err != nil {
		return s.refuse(app.NotFound, "fail.nowhere")
	}
	w.Header().Set("Content-Type", fileTypes[path.Ext(name)])
	w.Header().Set("Cache-Control", "max-age=3600")
	_, _ = w.Write(b) // who hung up needs no answer
	return nil
}
