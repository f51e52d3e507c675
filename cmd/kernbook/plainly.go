package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
)

// plainly gives an error as it is told: what the system says of a file is put as
// what is wrong, where, and how to mend it.
func plainly(err error) string {
	text := err.Error()
	var p *fs.PathError
	if !errors.As(err, &p) {
		return text
	}
	return strings.Replace(text, p.Error(), aboutFile(p), 1)
}

func aboutFile(p *fs.PathError) string {
	switch folder := filepath.Dir(p.Path); {
	case errors.Is(p.Err, syscall.ENOTDIR):
		return fmt.Sprintf("%s: %s is a file where a folder is wanted; name another place, or move that file away", p.Path, inTheWay(p.Path))
	case errors.Is(p.Err, fs.ErrNotExist) && !isFolder(folder):
		return fmt.Sprintf("%s: there is no folder %s; make it first, or name another place", p.Path, folder)
	case errors.Is(p.Err, fs.ErrNotExist):
		return p.Path + ": there is no such file; is its name right, and is it in this folder?"
	case errors.Is(p.Err, syscall.EISDIR):
		return p.Path + ": is a folder; name a file in it"
	case errors.Is(p.Err, fs.ErrPermission):
		return p.Path + ": you may not read or write there; name another place, or see whose it is"
	case errors.Is(p.Err, syscall.EROFS):
		return p.Path + ": nothing can be written there, it is read-only; name another place"
	case errors.Is(p.Err, syscall.ENOSPC):
		return p.Path + ": there is no room left on the disk; make room, and try again"
	}
	return p.Error()
}

// inTheWay gives the part of a path that is a file and should be a folder.
func inTheWay(path string) string {
	for at := path; ; at = filepath.Dir(at) {
		if s, err := os.Stat(at); err == nil && !s.IsDir() || at == filepath.Dir(at) {
			return at
		}
	}
}
