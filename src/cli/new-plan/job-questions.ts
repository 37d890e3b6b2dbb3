/** The questions about the job as a whole: name, units, material, size, how many, what it is sawn from. */
import { findMaterial } from '../../shop/materials.ts';
import { parseLength } from '../../shop/parse-length.ts';
import { parseCount } from '../../shop/parse-quantity.ts';
import { asMm } from '../../shop/quantities.ts';
import { ALLOWANCE, POSITIVE_LENGTH } from '../../shop/ranges.ts';
import { formatRefusal, sureOf } from '../../shop/refusal.ts';
import { formatInches, formatTrimmed, type LengthUnit } from '../../shop/units.ts';
import { ask, askOneOf, type Interview, orNothing, readBy, someWords } from './asking.ts';
import type { Draft, DraftValue } from './draft.ts';

export const isSize = (unit: LengthUnit) => readBy((text) => parseLength(text, unit, POSITIVE_LENGTH));
const isAllowance = (unit: LengthUnit) => readBy((text) => parseLength(text, unit, ALLOWANCE));
const isCount = (from: number) =>
  readBy((text) => parseCount(text, { what: 'number', unit: '', from, upTo: 10_000, remedy: 'give a whole number' }));

/** The keys of the plan down to `stock`. */
export function* askJob(): Interview<Draft> {
  const job = yield* ask('What is the job called?', null, someWords);
  const id = yield* ask('Its short name for good (small letters, digits, dashes)', slug(job), (answer) =>
    /^[a-z0-9][a-z0-9-]{0,60}$/u.test(answer) ? undefined : 'Small letters, digits and dashes, such as latch-bars.',
  );
  const units = yield* askOneOf('Units of the drawing', ['mm', 'inch'], 'mm');
  const material = yield* ask('Material', 'mild steel', (answer) => {
    const found = findMaterial(answer);
    return found.ok ? undefined : `${formatRefusal(found.problem)}.`;
  });
  const part = {
    length: yield* ask('Length of the finished part, along X', null, isSize(units)),
    width: yield* ask('Width, along Y', null, isSize(units)),
    thickness: yield* ask('Thickness, along Z', null, isSize(units)),
    datum: yield* askOneOf(
      'Corner from which the drawing measures',
      ['left front', 'left rear', 'right front', 'right rear'],
      'left front',
    ),
  };
  const quantities = yield* askQuantities();
  const stock = yield* askStock(units);
  return { format: '1', id, job, units, material, part, ...quantities, ...stock };
}

const slug = (job: string): string | null => {
  const plain = job
    .toLowerCase()
    .replace(/[^a-z0-9]+/gu, '-')
    .replace(/^-+|-+$/gu, '')
    .slice(0, 40);
  return plain === '' ? null : plain;
};

const variantForm = /^([a-z][a-z0-9 -]*?) +(\d{1,5})$/u;
const variantsIn = (answer: string) => answer.split(',').map((part) => variantForm.exec(part.trim().toLowerCase()));

function* askQuantities(): Interview<Draft> {
  const kinds = yield* ask(
    'Variants with their quantities, such as "left 10, right 10" (empty: one kind only)',
    null,
    orNothing((answer) => {
      const read = variantsIn(answer);
      const names = read.map((one) => one?.[1]);
      if (read.some((one) => one === null || Number(one[2]) < 1)) return 'A name and a number each, such as "left 10".';
      return new Set(names).size < names.length ? 'Each name once, please.' : undefined;
    }),
  );
  const many: Draft =
    kinds === ''
      ? { quantity: yield* ask('How many good pieces are ordered?', null, isCount(1)) }
      : {
          variants: Object.fromEntries(variantsIn(kinds).map((one) => [one?.[1] ?? '', { quantity: one?.[2] ?? '' }])),
        };
  const spares = yield* ask('How many pieces are started above that, as spares?', '0', isCount(0));
  return { ...many, ...(spares === '0' ? {} : { spares }) };
}

function* askStock(unit: LengthUnit): Interview<Draft> {
  const section = yield* ask(
    'Section of the bar it is sawn from, such as "30 x 8 flat" (empty: blanks come cut)',
    null,
    orNothing(someWords),
  );
  if (section === '') return {};
  const stock: Record<string, DraftValue> = {
    section,
    bars: yield* ask('Length of a bar', null, isSize(unit)),
    kerf: yield* ask('Width of the saw cut', unit === 'mm' ? '1.2' : '.05', isSize(unit)),
    facing: yield* ask('Allowance left for facing, at each end', '0', isAllowance(unit)),
    'end trim': yield* ask('Cropped off a new bar', '0', isAllowance(unit)),
    grip: yield* ask('Shortest end that the saw can hold', '0', isAllowance(unit)),
  };
  if (stock['facing'] !== '0') {
    yield {
      kind: 'say',
      text: 'Milling the ends to length is not asked here: add it to the file, before the holes, as jobs/keeper-plates.yaml has it.',
    };
  }
  return { stock };
}

/** Length of a blank as text in the plan's units, from the keys above; null when blanks come cut. */
export function blankOf(draft: Draft): string | null {
  const { stock, part, units } = draft as { stock?: Draft; part: Draft; units: LengthUnit };
  if (stock === undefined) return null;
  const read = (text: DraftValue | undefined): number => sureOf(parseLength(String(text), units, ALLOWANCE));
  const blank = asMm(read(part['length']) + 2 * read(stock['facing']));
  return units === 'mm' ? formatTrimmed(blank, 3) : formatInches(blank, 4);
}
