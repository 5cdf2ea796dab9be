/**
 * Lengths as they are said and typed. All is reckoned and kept in mm; a kit whose rule is marked in inches has its lengths
 * said as inches and fractions, and read so when they are typed.
 *
 * What is said is said in one unit at a time: `speakIn` sets it, once for an exercise.
 *
 * @source a figure midway between two graduations goes to the even one: NIST Handbook 44, section 10.3; an inch is 25.4 mm
 *   (international yard and pound agreement, 1959; from memory)
 */
export type Units = 'mm' | 'in-16' | 'in-32';

const inchMm = 25.4;

let spoken: Units = 'mm';
let dash = '-';

/**
 * Has lengths said and typed in a unit from now on.
 *
 * @param as - `whole`: with a dash that no line is broken at, for a page; what is typed may have either
 */
export function speakIn(units: Units, as: 'plain' | 'whole' = 'plain'): void {
  spoken = units;
  dash = as === 'whole' ? '\u2011' : '-';
}

/** Says a length as a hand writes it into a box: inches without their mark. */
export function asWritten(mm: number): string {
  return sayWritten(mm).replace('"', '').replaceAll('\u2011', '-');
}

/** Gives the unit in which lengths are said now. */
export function spokenUnits(): Units {
  return spoken;
}

/** Gives a rule's graduation, mm. */
export function graduationMm(units: Units): number {
  return units === 'mm' ? 1 : inchMm / (units === 'in-16' ? 16 : 32);
}

/** Rounds to half a graduation, as a rule is read; of mm, up where it lies midway. */
export function readTo(units: Units, mm: number): number {
  if (units === 'mm') return Math.round(mm * 2) / 2;
  const half = graduationMm(units) / 2;
  return toEven(mm / half) * half;
}

/** Says a length: mm to a tenth, or inches and a fraction to half a graduation. */
export function sayLength(mm: number, units = spoken): string {
  return units === 'mm' ? String(Math.round(mm * 10) / 10) : sayInches(mm, units);
}

/** Says a length as it was written or stated: mm as they are. */
export function sayWritten(mm: number, units = spoken): string {
  return units === 'mm' ? String(mm) : sayInches(mm, units);
}

/** Says a length to a hundredth, as sums are worked in; inches as `sayLength`. */
export function sayHundredths(mm: number): string {
  return sayWritten(Math.round(mm * 100) / 100);
}

/** Says a length to half a graduation, as a rule is read. */
export function sayRead(mm: number): string {
  return sayWritten(readTo(spoken, mm));
}

/** Says a length with its unit. */
export function sayWithUnit(mm: number): string {
  return `${sayLength(mm)}${unitAfter()}`;
}

/** Says a length to a tenth that always stands, with a true minus: for columns and the ends of a rule. */
export function sayTenths(mm: number): string {
  const text = spoken === 'mm' ? (Math.round(mm * 10) / 10).toFixed(1) : sayLength(mm);
  return text === '-0.0' ? '0.0' : text.replace(/^-/, '−');
}

/** Says a length as an eye tells it, to the nearest whole mm, or half inch. */
export function sayRoughly(mm: number): string {
  const to = spoken === 'mm' ? 1 : inchMm / 2;
  return sayWritten(0 + Math.round(mm / to) * to);
}

/** Rounds a place that is pointed at: to whole mm, or eighths of an inch. */
export function asPointed(mm: number): number {
  const to = spoken === 'mm' ? 1 : inchMm / 8;
  return 0 + Math.round(mm / to) * to;
}

/** Rounds a place that is chosen to be read at: mm stay, inches go to halves. */
export function asChosen(mm: number): number {
  return spoken === 'mm' ? mm : 0 + Math.round((2 * mm) / inchMm) * (inchMm / 2);
}

/** The unit as it follows a figure: of inches nothing, for each has its mark. */
export function unitAfter(): string {
  return spoken === 'mm' ? ' mm' : '';
}

/** Says a slope: mm in a metre, or inches in a foot. */
export function saySlope(mmPerM: number): string {
  return spoken === 'mm' ? `${mmPerM} in a metre` : `${sayLength((mmPerM / 1000) * 12 * inchMm)} in a foot`;
}

/** Names the unit, as a heading has it. */
export function unitWord(): string {
  return spoken === 'mm' ? 'mm' : 'inches';
}

/** Names the unit, as one is told to write in it, with an example. */
export function writeInWords(): string {
  return spoken === 'mm' ? 'in millimetres, as in 592.5' : 'in inches, as in 23-5/16';
}

/** Reads a length as a hand writes it: with a comma for the point, a true minus, spaces about it; null where it is none. */
export function writtenLength(text: string | undefined): number | null {
  return typedLength((text ?? '').replace(',', '.').replace('−', '-').trim());
}

/** Reads lengths with a comma or a semicolon between; null where one is none, or there is none at all. */
export function writtenLengths(text: string): readonly number[] | null {
  const lengths = text.split(/[,;]/).map(writtenLength);
  return lengths.every((mm) => mm !== null) ? lengths : null;
}

/**
 * Reads a typed length, mm: `482.5`, or in inches `19`, `18-15/16`, `18 15/16`, `18½`, `15/16"`, `18.5`, `1' 6"`.
 *
 * @returns null where it is none
 */
export function typedLength(word: string | undefined, units = spoken): number | null {
  if (word === undefined) return null;
  if (units === 'mm') return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(word) ? Number(word) : null;
  const found = /^([+-]?)(?:(\d+)'[ -]*)?(?:(\d+\.?\d*|\.\d+)|(?:(\d+)[- ])?(\d+)\/(2|4|8|16|32|64))?"?$/.exec(
    spelt(word),
  );
  if (!found) return null;
  const [, sign, feet, plain, whole, over, under] = found;
  if (feet === undefined && plain === undefined && over === undefined) return null;
  if (whole !== undefined && Number(over) >= Number(under)) return null;
  const part = over === undefined ? 0 : Number(over) / Number(under);
  const all = 12 * Number(feet ?? 0) + Number(plain ?? whole ?? 0) + part;
  return (sign === '-' ? 0 - all : all) * inchMm;
}

const fractions: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

/** Spells fractions of one sign out, and leaves out the word for inches. */
function spelt(word: string): string {
  return word
    .replace(/(\d) ?(?=[½¼¾⅛⅜⅝⅞])/, '$1-')
    .replace(/[½¼¾⅛⅜⅝⅞]/, (sign) => fractions[sign] ?? sign)
    .replaceAll('\u2011', '-')
    .replace(/[”″]/, '"')
    .replace(/[’′]/, "'")
    .replace(/ ?(in|inch|inches)$/, '');
}

function sayInches(mm: number, units: Units): string {
  let under = units === 'in-16' ? 32 : 64;
  let parts = Math.abs(toEven((mm / inchMm) * under));
  const sign = mm < 0 && parts > 0 ? '-' : '';
  while (under > 1 && parts % 2 === 0) {
    parts /= 2;
    under /= 2;
  }
  const whole = Math.floor(parts / under);
  const over = parts - whole * under;
  if (over === 0) return `${sign}${whole}"`;
  return `${sign}${whole > 0 ? `${whole}${dash}` : ''}${over}/${under}"`;
}

/** The nearest whole number; midway, the even one. A millionth counts as midway: inches are no round mm. */
function toEven(n: number): number {
  const below = Math.floor(n);
  const over = n - below;
  if (Math.abs(over - 0.5) > 1e-6) return Math.round(n);
  return below % 2 === 0 ? below : below + 1;
}
