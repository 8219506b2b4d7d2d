package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"unicode/utf8"

	"github.com/spf13/cobra"
	"github.com/spf13/viper"

	"shopstint/model/problem"
)

const variablePrefix = "SHOPSTINT_"

// Variables that are no settings.
const (
	variableSettings = variablePrefix + "SETTINGS"  // where the settings file is
	variableStudies  = variablePrefix + "STUDIES"   // how many generated studies the tests recalculate
	variableUpdate   = variablePrefix + "UPDATE"    // the tests rewrite their expected outputs
	variableNoOffice = variablePrefix + "NO_OFFICE" // the tests leave the spreadsheet program out
)

// layers are the settings in the making.
type layers struct {
	merged *viper.Viper
	from   map[string]string // by key: who said so, in words for a problem
}

func newLayers() *layers {
	l := &layers{viper.New(), map[string]string{}}
	for _, one := range catalogue() {
		l.merged.SetDefault(one.key, one.fallback)
	}
	return l
}

// put lays values on top; from says in words who gave each.
func (l *layers) put(texts map[string]any, from func(key string) string) problem.List {
	for key := range texts {
		l.from[key] = from(key)
	}
	if err := l.merged.MergeConfigMap(texts); err != nil {
		return problem.List{{What: "the settings cannot be merged: " + oneLine(err)}}
	}
	return nil
}

func keys() []string {
	var list []string
	for _, one := range catalogue() {
		list = append(list, one.key)
	}
	return list
}

// file adds the settings file, if there is one.
func (l *layers) file(s *session, cmd *cobra.Command) problem.List {
	path, must := s.settingsPath(cmd)
	if path == "" {
		return nil
	}
	src, err := readAtMost(path, mostSettings)
	switch {
	case !must && (errors.Is(err, fs.ErrNotExist) || errors.Is(err, syscall.ENOTDIR)):
		return nil
	case len(src) > mostSettings:
		return problem.List{{Place: problem.Place{File: path}, What: fmt.Sprintf("the settings file is larger than %d KB", mostSettings>>10), Right: "write one setting a line, such as units: metric"}}
	case err != nil:
		return problem.List{{Place: problem.Place{File: path}, What: "the settings file cannot be read: " + plainCause(err).Error(), Right: "name another with --settings"}}
	}
	return l.parse(path, src)
}

// mostSettings bounds the settings file, in bytes.
const mostSettings = 64 << 10

// settingsPath finds the settings file; must tells that it was named.
func (s *session) settingsPath(cmd *cobra.Command) (path string, must bool) {
	if named, err := cmd.Flags().GetString("settings"); err == nil && named != "" {
		return named, true
	}
	if named := s.env(variableSettings); named != "" {
		return named, true
	}
	folder, err := s.configFolder()
	if err != nil {
		return "", false // no home, no settings file
	}
	return filepath.Join(folder, "shopstint", "settings.yaml"), false
}

// parse reads the file on its own first, to tell its unknown keys by name.
func (l *layers) parse(path string, src []byte) problem.List {
	if line := secondDocument(string(src)); line > 0 {
		return problem.List{{Place: problem.Place{File: path, Line: line}, What: "a second document begins here", Right: "write all settings in one; take the line --- out"}}
	}
	file := viper.New()
	file.SetConfigType("yaml")
	if err := file.ReadConfig(bytes.NewReader(src)); err != nil {
		right := "write one setting a line, such as units: metric"
		if !utf8.Valid(src) || bytes.IndexByte(src, 0) >= 0 {
			right = "save it as a plain text in UTF-8"
		}
		return problem.List{{Place: problem.Place{File: path, Line: lineIn(err)}, What: "this is not a settings file", Right: right}}
	}
	given, problems := texts(path, file.AllSettings())
	return append(problems, l.put(given, func(key string) string { return path + ": " + key })...)
}

// secondDocument is the line on which a second document begins, which viper would
// leave unread; 0 without one.
func secondDocument(src string) int {
	begun, number := false, 0
	for line := range strings.Lines(src) {
		number++
		text := strings.TrimSpace(line)
		switch {
		case strings.HasPrefix(line, "---") && begun:
			return number
		case text != "" && !strings.HasPrefix(text, "#") && !strings.HasPrefix(text, "%"):
			begun = true
		}
	}
	return 0
}

// texts returns the known settings of a file as they were written, and what is
// wrong with the rest. A key without a value is as good as none.
func texts(path string, all map[string]any) (given map[string]any, problems problem.List) {
	given = map[string]any{}
	refuse := func(what, right string) {
		problems = append(problems, problem.Problem{Place: problem.Place{File: path}, What: what, Right: right})
	}
	for _, key := range slices.Sorted(maps.Keys(all)) {
		text, single := textOf(all[key])
		switch {
		case !slices.Contains(keys(), key):
			refuse("unknown setting "+strconv.Quote(key), problem.Suggest(key, keys()))
		case !single:
			refuse(key+" is not a single value", "write it as "+key+": VALUE")
		case text != "":
			given[key] = text
		}
	}
	return given, problems
}

// textOf writes a single value of the file as text; single is false for a list
// or a mapping.
func textOf(value any) (text string, single bool) {
	switch value := value.(type) {
	case nil:
		return "", true
	case string:
		return value, true
	case bool:
		return map[bool]string{true: "yes", false: "no"}[value], true
	case int:
		return strconv.Itoa(value), true
	case float64:
		return strconv.FormatFloat(value, 'f', -1, 64), true
	}
	return "", false
}

// lineIn finds the line that the YAML reader names, 0 when it names none.
func lineIn(err error) int {
	line := 0
	if _, after, ok := strings.Cut(err.Error(), "line "); ok {
		_, _ = fmt.Sscanf(after, "%d", &line) // stays 0 where there is no number
	}
	return line
}

// environment adds the SHOPSTINT_ variables; an empty one is as good as none.
func (l *layers) environment(s *session, _ *cobra.Command) problem.List {
	known := []string{variableSettings, variableUpdate, variableNoOffice, variableStudies}
	given := map[string]any{}
	for _, one := range catalogue() {
		known = append(known, one.variable())
		if value := s.env(one.variable()); value != "" {
			given[one.key] = value
		}
	}
	problems := l.put(given, func(key string) string { return setting{key: key}.variable() })
	for _, entry := range s.environ {
		name, _, _ := strings.Cut(entry, "=")
		if strings.HasPrefix(name, variablePrefix) && !slices.Contains(known, name) {
			problems = append(problems, problem.Problem{What: "unknown variable " + name, Right: problem.Suggest(name, known)})
		}
	}
	return problems
}

// flags adds the flags that were given.
func (l *layers) flags(_ *session, cmd *cobra.Command) problem.List {
	for _, one := range catalogue() {
		flag := cmd.Flags().Lookup(one.flag())
		if flag == nil || !flag.Changed {
			continue
		}
		l.from[one.key] = "--" + one.flag()
		if err := l.merged.BindPFlag(one.key, flag); err != nil {
			return problem.List{{What: "--" + one.flag() + " cannot be read: " + oneLine(err)}}
		}
	}
	return nil
}

// blame names where a setting's value came from.
func (l *layers) blame(key string) string {
	if from, ok := l.from[key]; ok {
		return from
	}
	return key
}
