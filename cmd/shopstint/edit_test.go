package main

import (
	"fmt"
	"os"
	"strconv"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/xuri/excelize/v2"
)

// edit FILE SHEET INPUT VALUE types a value into a workbook: for an input of the
// sheet Inputs by its path, on a sheet of the form by which/input.
func edit(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 4 {
		ts.Fatalf("usage: edit FILE SHEET INPUT VALUE")
	}
	path := ts.MkAbs(args[0])
	file, err := excelize.OpenFile(path)
	ts.Check(err)
	cell, err := cellOf(file, args[1], args[2])
	ts.Check(err)
	var value any = args[3]
	if number, err := strconv.ParseFloat(args[3], 64); err == nil {
		value = number
	}
	ts.Check(file.SetCellValue(args[1], cell, value))
	out, err := os.Create(path)
	ts.Check(err)
	ts.Check(file.Write(out))
	ts.Check(out.Close())
}

func cellOf(file *excelize.File, sheet, input string) (string, error) {
	rows, err := file.GetRows(sheet)
	if err != nil {
		return "", err
	}
	which, name, isForm := strings.Cut(input, "/")
	for i, row := range rows {
		switch {
		case isForm && len(row) > 1 && row[0] == which && row[1] == name:
			return "C" + strconv.Itoa(i+1), nil
		case !isForm && len(row) > 0 && row[0] == input:
			return "B" + strconv.Itoa(i+1), nil
		}
	}
	return "", fmt.Errorf("no row of %s on the sheet %s", input, sheet)
}
