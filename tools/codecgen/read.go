package main

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"reflect"
	"slices"
	"strconv"
	"strings"
)

// readHouse reads the desk's list and every package whose types it names.
func readHouse(root string) (*house, error) {
	h := &house{}
	deskFiles, err := parseFolder(filepath.Join(root, "calc", "desk"))
	if err != nil {
		return nil, err
	}
	h.paths = importsOf(deskFiles)
	for _, file := range deskFiles {
		ast.Inspect(file, func(n ast.Node) bool {
			if call, ok := n.(*ast.CallExpr); ok && err == nil {
				var e *entry
				if e, err = readEntry(call); e != nil {
					h.entries = append(h.entries, *e)
				}
			}
			return err == nil
		})
	}
	if err != nil {
		return nil, err
	}
	if _, err := h.pkg(root, h.paths, "codec"); err != nil {
		return nil, err
	}
	for _, e := range h.entries {
		for _, t := range []typeName{e.request, e.answer} {
			p, err := h.pkg(root, h.paths, t.pkg)
			if err != nil {
				return nil, err
			}
			if err := p.mark(t.name, t == e.request); err != nil {
				return nil, fmt.Errorf("%s.%w", t.pkg, err)
			}
		}
	}
	for _, p := range h.packages {
		if err := p.checkTags(); err != nil {
			return nil, fmt.Errorf("%s.%w", p.name, err)
		}
	}
	return h, nil
}

// pkg is the package of this name, read when first asked for; paths are what is imported where it is named.
func (h *house) pkg(root string, paths map[string]string, name string) (*pkg, error) {
	for _, p := range h.packages {
		if p.name == name {
			return p, nil
		}
	}
	path := paths[name]
	if path == "" {
		path = name
	}
	p, err := readPackage(filepath.Join(root, "calc", path), name)
	if err != nil {
		return nil, err
	}
	p.path = path
	for _, other := range p.foreignPackages() {
		q, err := h.pkg(root, p.paths, other)
		if err != nil {
			return nil, err
		}
		p.others = append(p.others, q)
	}
	p.tellEnums()
	h.packages = append(h.packages, p)
	return p, nil
}

// foreignPackages is the names of the packages that fields have types of.
func (p *pkg) foreignPackages() (names []string) {
	for _, name := range p.order {
		if s := p.structs[name]; s != nil {
			for _, f := range s.fields {
				if other, _, ok := strings.Cut(f.of, "."); ok && !slices.Contains(names, other) {
					names = append(names, other)
				}
			}
		}
	}
	return names
}

// tellEnums sets the kinds of fields that are enums: until all types are known they pass for structs.
func (p *pkg) tellEnums() {
	for _, s := range p.structs {
		for i := range s.fields {
			if f := &s.fields[i]; p.enumOf(f.of) != nil {
				if f.kind == kindStruct {
					f.kind = kindEnum
				}
				if f.elem == kindStruct {
					f.elem = kindEnum
				}
			}
		}
	}
}

// importsOf is the packages of calc that the files import, as paths from there by name.
func importsOf(files []*ast.File) map[string]string {
	paths := map[string]string{}
	for _, file := range files {
		for _, spec := range file.Imports {
			full, _ := strconv.Unquote(spec.Path.Value)
			if path, ok := strings.CutPrefix(full, "wirewake/calc/"); ok {
				paths[path[strings.LastIndex(path, "/")+1:]] = path
			}
		}
	}
	return paths
}

// parseFolder parses the Go files of a folder, tests and generated code left out.
func parseFolder(dir string) ([]*ast.File, error) {
	paths, err := filepath.Glob(filepath.Join(dir, "*.go"))
	if err != nil {
		return nil, err
	}
	var files []*ast.File
	for _, path := range paths {
		if filepath.Base(path) == goFile || strings.HasSuffix(path, "_test.go") {
			continue
		}
		file, err := parseFile(path)
		if err != nil {
			return nil, err
		}
		files = append(files, file)
	}
	if len(files) == 0 {
		return nil, fmt.Errorf("no Go files in %s: %w", dir, fs.ErrNotExist)
	}
	return files, nil
}

func parseFile(path string) (*ast.File, error) {
	return parser.ParseFile(token.NewFileSet(), path, nil, parser.ParseComments|parser.SkipObjectResolution)
}

// readEntry reads a call offer[pkg.Request, pkg.Answer]("name", "summary", function), one of offerWith, whose function
// takes the stations before the request, or one of offerBox, which the phone does not have; another call gives nil.
func readEntry(call *ast.CallExpr) (*entry, error) {
	index, ok := call.Fun.(*ast.IndexListExpr)
	if !ok || len(index.Indices) != 2 || len(call.Args) != 3 {
		return nil, nil
	}
	name, ok := index.X.(*ast.Ident)
	if !ok || name.Name != "offer" && name.Name != "offerWith" && name.Name != "offerBox" {
		return nil, nil
	}
	e := entry{with: name.Name == "offerWith", box: name.Name == "offerBox"}
	for i, text := range []*string{&e.name, &e.summary} {
		lit, ok := call.Args[i].(*ast.BasicLit)
		if !ok || lit.Kind != token.STRING {
			return nil, fmt.Errorf("argument %d of offer must be a string literal", i+1)
		}
		*text, _ = strconv.Unquote(lit.Value)
	}
	for i, t := range []*typeName{&e.request, &e.answer} {
		sel, ok := index.Indices[i].(*ast.SelectorExpr)
		if !ok {
			return nil, fmt.Errorf("%s: type argument %d of offer must be package.Type", e.name, i+1)
		}
		x, ok := sel.X.(*ast.Ident)
		if !ok {
			return nil, fmt.Errorf("%s: type argument %d of offer must be package.Type", e.name, i+1)
		}
		*t = typeName{x.Name, sel.Sel.Name}
	}
	switch by := call.Args[2].(type) {
	case *ast.Ident:
		e.by = by.Name
	case *ast.SelectorExpr:
		if x, ok := by.X.(*ast.Ident); ok {
			e.by = x.Name + "." + by.Sel.Name
		}
	}
	if e.by == "" {
		return nil, fmt.Errorf("%s: argument 3 of offer must be the name of a function", e.name)
	}
	return &e, nil
}

// readPackage reads the types of a package.
func readPackage(dir, name string) (*pkg, error) {
	files, err := parseFolder(dir)
	if err != nil {
		return nil, err
	}
	return readTypes(files, name)
}

// readTypes reads the types in the files.
func readTypes(files []*ast.File, name string) (*pkg, error) {
	p := &pkg{name: name, path: name, paths: importsOf(files), structs: map[string]*structType{}, enums: map[string]*enum{}}
	for _, file := range files {
		p.readEnums(file)
	}
	for _, file := range files {
		if err := p.readConstants(file); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		if err := p.readStructs(file); err != nil {
			return nil, fmt.Errorf("%s.%w", name, err)
		}
	}
	p.tellEnums()
	return p, nil
}

// eachType calls do for each type of the file.
func eachType(file *ast.File, do func(spec *ast.TypeSpec, doc string)) {
	for _, d := range file.Decls {
		g, ok := d.(*ast.GenDecl)
		if !ok || g.Tok != token.TYPE {
			continue
		}
		for _, s := range g.Specs {
			spec := s.(*ast.TypeSpec)
			doc := spec.Doc
			if doc == nil {
				doc = g.Doc
			}
			do(spec, strings.TrimSpace(doc.Text()))
		}
	}
}

func (p *pkg) readEnums(file *ast.File) {
	eachType(file, func(spec *ast.TypeSpec, doc string) {
		if id, ok := spec.Type.(*ast.Ident); ok && id.Name == "string" {
			p.enums[spec.Name.Name] = &enum{name: spec.Name.Name, doc: doc}
			p.order = append(p.order, spec.Name.Name)
		}
	})
}

// readConstants gives the enums their values.
func (p *pkg) readConstants(file *ast.File) error {
	for _, d := range file.Decls {
		g, ok := d.(*ast.GenDecl)
		if !ok || g.Tok != token.CONST {
			continue
		}
		for _, s := range g.Specs {
			spec := s.(*ast.ValueSpec)
			id, ok := spec.Type.(*ast.Ident)
			if !ok || p.enums[id.Name] == nil {
				continue
			}
			for _, v := range spec.Values {
				lit, ok := v.(*ast.BasicLit)
				if !ok || lit.Kind != token.STRING {
					return fmt.Errorf("constant %s must be a string literal", spec.Names[0].Name)
				}
				value, err := strconv.Unquote(lit.Value)
				if err != nil {
					return err
				}
				p.enums[id.Name].values = append(p.enums[id.Name].values, value)
			}
		}
	}
	return nil
}

// readStructs reads the structs of which every field has a json tag; one with some but not all is a mistake.
func (p *pkg) readStructs(file *ast.File) (err error) {
	eachType(file, func(spec *ast.TypeSpec, doc string) {
		st, ok := spec.Type.(*ast.StructType)
		if !ok || err != nil || !spec.Name.IsExported() {
			return
		}
		s := &structType{name: spec.Name.Name, doc: doc}
		plain := 0
		for _, f := range st.Fields.List {
			var tag reflect.StructTag
			if f.Tag != nil {
				text, _ := strconv.Unquote(f.Tag.Value)
				tag = reflect.StructTag(text)
			}
			if _, ok := tag.Lookup("json"); !ok {
				plain++
				continue
			}
			read, e := readField(f, tag)
			if e != nil {
				err = fmt.Errorf("%s.%w", s.name, e)
				return
			}
			s.fields = append(s.fields, read)
		}
		if plain > 0 {
			if len(s.fields) > 0 {
				err = fmt.Errorf("%s: every field needs a json tag", s.name)
			}
			return
		}
		p.structs[s.name] = s
		p.order = append(p.order, s.name)
	})
	return err
}

func readField(f *ast.Field, tag reflect.StructTag) (field, error) {
	if len(f.Names) != 1 {
		return field{}, fmt.Errorf("%s: one name to a field", tag)
	}
	out := field{goName: f.Names[0].Name, name: tag.Get("json"), unit: tag.Get("unit"), doc: strings.TrimSpace(f.Doc.Text())}
	fail := func(format string, args ...any) (field, error) {
		return field{}, fmt.Errorf("%s: %w", out.goName, fmt.Errorf(format, args...))
	}
	if err := out.readType(f.Type); err != nil {
		return fail("%w", err)
	}
	number := out.kind
	if out.kind == kindList {
		number = out.elem
	}
	for _, l := range []struct {
		key   string
		to    **limits
		fits  bool
		whole bool
	}{
		{"range", &out.limits, number == kindFloat || number == kindInt, number == kindInt},
		{"count", &out.count, out.kind == kindList, true},
		{"chars", &out.chars, number == kindString, true},
	} {
		text, ok := tag.Lookup(l.key)
		if !ok {
			continue
		}
		if !l.fits {
			return fail("%s does not fit the type", l.key)
		}
		var err error
		if *l.to, err = parseLimits(text, l.whole); err != nil {
			return fail("%s: %w", l.key, err)
		}
	}
	out.def, out.hasDefault = tag.Lookup("default")
	switch tag.Get("optional") {
	case "":
	case "yes":
		out.optional = true
	default:
		return fail(`optional can only be "yes"`)
	}
	if text, ok := tag.Lookup("digits"); ok {
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 || n > 17 || number != kindFloat {
			return fail("digits must be 1 to 17 and is for float64 and []float64")
		}
		out.digits = n
	}
	return out, nil
}

// readType sets kind, elem and of. An enum is taken for a struct until all types are known.
func (f *field) readType(t ast.Expr) error {
	switch t := t.(type) {
	case *ast.Ident:
		switch t.Name {
		case "float64":
			f.kind = kindFloat
		case "int":
			f.kind = kindInt
		case "bool":
			f.kind = kindBool
		case "string":
			f.kind = kindString
		default:
			f.kind, f.of = kindStruct, t.Name
		}
		return nil
	case *ast.SelectorExpr:
		if of, ok := foreign(t); ok {
			f.kind, f.of = kindStruct, of
			return nil
		}
	case *ast.StarExpr:
		switch x := t.X.(type) {
		case *ast.Ident:
			f.kind, f.of = kindPointer, x.Name
			if x.Name == "float64" {
				f.kind, f.of = kindNumber, ""
			}
			return nil
		case *ast.SelectorExpr:
			if p, ok := x.X.(*ast.Ident); ok && p.Name == "codec" && x.Sel.Name == "Problem" {
				f.kind, f.of = kindProblem, "Problem"
				return nil
			}
			if of, ok := foreign(x); ok {
				f.kind, f.of = kindPointer, of
				return nil
			}
		}
	case *ast.ArrayType:
		if t.Len == nil {
			e := field{}
			if err := e.readType(t.Elt); err != nil {
				return err
			}
			if e.kind <= kindStruct {
				f.kind, f.elem, f.of = kindList, e.kind, e.of
				return nil
			}
		}
	}
	return fmt.Errorf("type is none of those package codec knows")
}

// foreign is a type of another calculation as the source has it.
func foreign(x *ast.SelectorExpr) (of string, ok bool) {
	p, ok := x.X.(*ast.Ident)
	if !ok || p.Name == "codec" {
		return "", false
	}
	return p.Name + "." + x.Sel.Name, true
}

// mark notes that the type, and all it is made of, is in a request or in an answer.
func (p *pkg) mark(name string, request bool) error {
	s := p.structs[name]
	if s == nil {
		return fmt.Errorf("%s is not a struct with json tags", name)
	}
	seen := &s.inAnswer
	if request {
		seen = &s.inRequest
	}
	if *seen {
		return nil
	}
	*seen = true
	for _, f := range s.fields {
		if f.kind == kindStruct || f.kind == kindPointer || f.kind == kindList && f.elem == kindStruct {
			home, of := p.home(f.of)
			if err := home.mark(of, request); err != nil {
				return fmt.Errorf("%s: %w", name, err)
			}
		}
	}
	return nil
}
