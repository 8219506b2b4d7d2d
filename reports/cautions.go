package reports

// Caution is the short form of Cautions, for where there is little room.
const Caution = "Wood dust, kickback, noise, lifting, electricity and tax are where you can be hurt. " +
	"Figures for wiring, dust and lifting are planning allowances, never designs: " +
	"follow the machine's manual and local codes, and ask a licensed electrician and a tax adviser."

// Cautions says where a user of the answer can be hurt and whom to ask. The
// program knows nothing of the room, the people or the law.
func Cautions() []string {
	return []string{
		"Wood dust harms lungs and can burn or explode: dust figures here are planning allowances, never designs; follow the machine's manual and local codes.",
		"Kickback and knives maim: guards, hold-downs and feed direction are as the machine's manual says, and no saving of minutes is worth changing them.",
		EdgesCut,
		"Noise of wide machines damages hearing: protect everyone in the room, and ask what local codes allow.",
		"Resin, glue and finish: their data sheets come first; sand only what has cured, with extraction and a mask.",
		"Lifting figures are planning allowances, never a safe load: judge each piece, its grip and the way, and use a cart or a lifter.",
		"Wiring and converter figures are planning allowances, never designs: a licensed electrician sizes and connects the supply under local codes.",
		"Tax rules differ by place and change: the depreciation and relief here are a reckoning, and a tax adviser decides.",
	}
}

// VisitCaution is what to mind on the way to a shop and at it.
const VisitCaution = "Lifting figures are planning allowances, never a safe load: judge each piece, its grip and the way, and use a cart or a lifter. " +
	"Wood dust harms lungs and can burn: extraction on, mask and ear protection at wide machines. " +
	"Use the shop's machines after its induction and never alone; the machine's manual and the shop's rules come first."

// EdgesCut is the short form of EdgeCaution.
const EdgesCut = "Edges cut and break: switch off and lock out, the air too, before you touch one; throw away one that is cracked or bent, and stop sharpening where its maker says."

// EdgeCaution is what to mind before an edge or abrasive is changed or kept longer.
const EdgeCaution = "Edges cut and break: switch off and lock out, the air too, before you touch one. " +
	"Throw away one that is cracked or bent, whatever life this page gives it; its maker says how far it may be sharpened, the machine's manual how deep and how fast it may cut. " +
	"Sand resin and glue only when they have cured, with extraction and a mask."

// SupplyCaution is what to mind where a draw of current is shown.
const SupplyCaution = "Amperes here are a planned draw of the machines that are likely to run at once, collectors included, never a design: a licensed electrician sizes the supply."

// PriceCaution is what to mind when minutes become a price.
const PriceCaution = "The minutes leave guards, extraction and rests in: no price is worth working without them. " +
	"Helpers are counted by a planning allowance for lifting, never a safe load: judge each piece, and use a cart or a lifter."

// TrackCaution is what to mind before a figure of the logbook is believed.
const TrackCaution = "A logbook knows what was written down: look at what it leaves out before you change an input. No gain in minutes is worth " +
	"changing a guard, a feed or a depth against the machine's manual."

// TaxCaution is what to mind where a tax effect is shown.
const TaxCaution = "Tax rules differ by place and change: the tax effect here is a reckoning by the study's own rate and method, no return. Ask a tax adviser."

// DueCaution is TaxCaution where edges fall due as well.
const DueCaution = TaxCaution + " " + "Edges cut and break: switch off and lock out, the air too, before you change one; a worn or damaged one is changed whatever this calendar says."
