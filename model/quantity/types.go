package quantity

// Length is a length in metres; shown in mm or in.
type Length float64

// Distance is a way driven, in metres; shown in km or mi.
type Distance float64

// Area is an area in square metres; shown in m² or ft².
type Area float64

// Mass is a mass in kilograms; shown in kg or lb.
type Mass float64

// Density is a density in kg/m³; shown in kg/m³ or lb/ft³.
type Density float64

// Duration is a length of time in seconds; shown in min.
type Duration float64

// Speed is a feed speed in m/s; shown in m/min or ft/min.
type Speed float64

// Power is a power in watts; shown in kW.
type Power float64

// AirFlow is a flow of air in m³/s; shown in m³/h or ft³/min.
type AirFlow float64

// Voltage is a voltage in volts.
type Voltage float64

// Current is an electric current in amperes.
type Current float64

// Rotation is a rotation in turns per second; shown in rpm.
type Rotation float64

// SpecificEnergy is the energy to remove a volume of stock, in J/m³; shown in MJ/m³.
type SpecificEnergy float64

// AreaTime is the time a surface takes, in s/m²; shown in min/m² or min/ft².
type AreaTime float64

// Years is a span of time in years.
type Years float64

// Share is a fraction of a whole, 1 for all of it; shown in %.
type Share float64

// Count is a bare number.
type Count float64

// Money is an amount in the currency of the study.
type Money float64

// MoneyPerHour is an hourly rate.
type MoneyPerHour float64

// MoneyPerKilometre is a rate per kilometre; shown per km or per mi.
type MoneyPerKilometre float64

// MoneyPerMetre is a rate per metre; shown per m or per ft.
type MoneyPerMetre float64

// MoneyPerSquareMetre is a rate per square metre; shown per m² or per ft².
type MoneyPerSquareMetre float64

// MoneyPerSquareMetreYear is a rate per square metre and year; shown per m² or per ft², per year.
type MoneyPerSquareMetreYear float64

// MoneyPerKilowattHour is an energy rate per kWh.
type MoneyPerKilowattHour float64

// MoneyPerKilowattMonth is a demand rate per kW and month.
type MoneyPerKilowattMonth float64

// MoneyPerMonth is a monthly rate.
type MoneyPerMonth float64

// Dimension tells that this is a Length.
func (Length) Dimension() Dimension { return DimLength }

// Dimension tells that this is a Distance.
func (Distance) Dimension() Dimension { return DimDistance }

// Dimension tells that this is a Area.
func (Area) Dimension() Dimension { return DimArea }

// Dimension tells that this is a Mass.
func (Mass) Dimension() Dimension { return DimMass }

// Dimension tells that this is a Density.
func (Density) Dimension() Dimension { return DimDensity }

// Dimension tells that this is a Duration.
func (Duration) Dimension() Dimension { return DimDuration }

// Dimension tells that this is a Speed.
func (Speed) Dimension() Dimension { return DimSpeed }

// Dimension tells that this is a Power.
func (Power) Dimension() Dimension { return DimPower }

// Dimension tells that this is a AirFlow.
func (AirFlow) Dimension() Dimension { return DimAirFlow }

// Dimension tells that this is a Voltage.
func (Voltage) Dimension() Dimension { return DimVoltage }

// Dimension tells that this is a Current.
func (Current) Dimension() Dimension { return DimCurrent }

// Dimension tells that this is a Rotation.
func (Rotation) Dimension() Dimension { return DimRotation }

// Dimension tells that this is a SpecificEnergy.
func (SpecificEnergy) Dimension() Dimension { return DimSpecificEnergy }

// Dimension tells that this is a AreaTime.
func (AreaTime) Dimension() Dimension { return DimAreaTime }

// Dimension tells that this is a Years.
func (Years) Dimension() Dimension { return DimYears }

// Dimension tells that this is a Share.
func (Share) Dimension() Dimension { return DimShare }

// Dimension tells that this is a Count.
func (Count) Dimension() Dimension { return DimCount }

// Dimension tells that this is a Money.
func (Money) Dimension() Dimension { return DimMoney }

// Dimension tells that this is a MoneyPerHour.
func (MoneyPerHour) Dimension() Dimension { return DimMoneyPerHour }

// Dimension tells that this is a MoneyPerKilometre.
func (MoneyPerKilometre) Dimension() Dimension { return DimMoneyPerKilometre }

// Dimension tells that this is a MoneyPerMetre.
func (MoneyPerMetre) Dimension() Dimension { return DimMoneyPerMetre }

// Dimension tells that this is a MoneyPerSquareMetre.
func (MoneyPerSquareMetre) Dimension() Dimension { return DimMoneyPerSquareMetre }

// Dimension tells that this is a MoneyPerSquareMetreYear.
func (MoneyPerSquareMetreYear) Dimension() Dimension { return DimMoneyPerSquareMetreYear }

// Dimension tells that this is a MoneyPerKilowattHour.
func (MoneyPerKilowattHour) Dimension() Dimension { return DimMoneyPerKilowattHour }

// Dimension tells that this is a MoneyPerKilowattMonth.
func (MoneyPerKilowattMonth) Dimension() Dimension { return DimMoneyPerKilowattMonth }

// Dimension tells that this is a MoneyPerMonth.
func (MoneyPerMonth) Dimension() Dimension { return DimMoneyPerMonth }
