/**
 * The branded numbers that travel between floors. A brand keeps millimetres from being passed where seconds are
 * wanted; inside one function plain numbers with a unit suffix do. Makers here refuse nothing: `asMm(NaN)` is a bug of
 * the caller, caught by the `parse` functions that read untrusted input (see units.ts).
 */
declare const unit: unique symbol;
type Branded<Unit extends string> = number & { readonly [unit]: Unit };

/** Length in millimetres; every length inside the program, whatever the plan's units. */
export type Mm = Branded<'mm'>;
/** Spindle speed in turns a minute. */
export type Rpm = Branded<'rpm'>;
/** Cutting speed in metres a minute. */
export type MetresPerMinute = Branded<'m/min'>;
/** Duration in seconds. */
export type Seconds = Branded<'s'>;
/** Angle in degrees. */
export type Degrees = Branded<'deg'>;

export const asMm = (value: number): Mm => value as Mm;
export const asRpm = (value: number): Rpm => value as Rpm;
export const asMetresPerMinute = (value: number): MetresPerMinute => value as MetresPerMinute;
export const asSeconds = (value: number): Seconds => value as Seconds;
export const asDegrees = (value: number): Degrees => value as Degrees;
