package grid

// ChartKind is the form of a chart.
type ChartKind int

// The kinds of chart. Scatter joins its points by straight lines and is the one for curves with gaps.
const (
	Scatter ChartKind = iota
	Column
	ColumnStacked
	BarStacked
	Line
)

// Chart is a picture of cells. X is the axis of the categories or of the x values, Y the axis of the values;
// in a bar chart X stands upright and Y lies below.
type Chart struct {
	Kind     ChartKind
	Title    string
	Cell     string // its top left corner
	Width    int    // pixels of 1/96 inch
	Height   int
	AltText  string
	X, Y     Axis
	Series   []Series
	NoLegend bool
}

// Axis is one side of a chart. Nil limits and a zero MajorUnit are chosen by the program that draws it.
type Axis struct {
	Title     string
	Format    string // number format, "" is General
	Min, Max  *float64
	MajorUnit float64
	LabelsLow bool // labels at the edge of the chart, not at the axis: for bars that go both ways
}

// Series is one curve or one colour of bars. Its name is the text Name or, when given, the content of NameRef.
// Categories (x values, optional save in a scatter chart) and Values are places such as `'Curve'!$B$2:$B$40`.
type Series struct {
	Name       string
	NameRef    string
	Categories string
	Values     string
	Color      string  // RRGGBB
	Width      float64 // of the line in points; 0 means 2.25
	Dash       Dash
	NoLine     bool
	Marker     Marker
	MarkerSize int // points, 2 to 72; 0 means 7
	Label      Label
	Over       bool // in a column chart: drawn as a line over the columns
}

// Dash is the pattern of a line.
type Dash string

// The patterns of a line.
const (
	DashSolid Dash = ""
	DashShort Dash = "sysDash"
	DashLong  Dash = "dash"
	DashDot   Dash = "sysDot"
)

// Marker is the sign at each point.
type Marker string

// The signs.
const (
	MarkerNone    Marker = ""
	MarkerDiamond Marker = "diamond"
	MarkerCircle  Marker = "circle"
	MarkerSquare  Marker = "square"
)

// Label is what is written at each point.
type Label int

// The labels: nothing, the value in the format of the value axis, the name of the series.
const (
	LabelNone Label = iota
	LabelValue
	LabelName
)
