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
		"Noise of wide machines damages hearing: protect everyone in the room, and ask what local codes allow.",
		"Lifting figures are planning allowances, never a safe load: judge each piece, its grip and the way, and use a cart or a lifter.",
		"Wiring and converter figures are planning allowances, never designs: a licensed electrician sizes and connects the supply under local codes.",
		"Tax rules differ by place and change: the depreciation and relief here are a reckoning, and a tax adviser decides.",
	}
}
