package grid

import (
	"fmt"
	"strings"
)

// drawingXML anchors a sheet's charts by their corner and size, so that rows that grow do not stretch them.
func drawingXML(charts []Chart) []byte {
	const emuPerPixel = 9525
	var out strings.Builder
	out.WriteString(xmlHeader + `<xdr:wsDr xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing" xmlns:a="` + nsDrawing + `">`)
	for i, c := range charts {
		at, _ := parseCell(c.Cell)
		fmt.Fprintf(&out, `<xdr:oneCellAnchor><xdr:from><xdr:col>%d</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>%d</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:from><xdr:ext cx="%d" cy="%d"/>`,
			at.col-1, at.row-1, c.Width*emuPerPixel, c.Height*emuPerPixel)
		fmt.Fprintf(&out, `<xdr:graphicFrame macro=""><xdr:nvGraphicFramePr><xdr:cNvPr id="%d" name="Chart %d" descr="%s"/><xdr:cNvGraphicFramePr/></xdr:nvGraphicFramePr>`,
			i+2, i+1, escaped(c.AltText))
		fmt.Fprintf(&out, `<xdr:xfrm><a:off x="0" y="0"/><a:ext cx="0" cy="0"/></xdr:xfrm><a:graphic><a:graphicData uri="%s"><c:chart xmlns:c="%s" xmlns:r="%s" r:id="rId%d"/></a:graphicData></a:graphic></xdr:graphicFrame><xdr:clientData/></xdr:oneCellAnchor>`,
			nsChart, nsChart, nsRelations, i+1)
	}
	out.WriteString(`</xdr:wsDr>`)
	return []byte(out.String())
}
