/**
 * Writing better estimates into the text of a plan. Only the values named are touched: comments, order, quotes, blank lines
 * and line ends stay byte for byte as they were written.
 */
import { isMap, isScalar, isSeq, parseDocument, type YAMLMap } from 'yaml';
import { andThen, answer, type Result, refuse } from '../shop/refusal.ts';
import type { EstimateChange } from './model.ts';

/**
 * The plan's text with the given estimates under `operations: ... estimate:`, written as `130 s`; a missing `estimate` is
 * added below the operation's number.
 *
 * @returns the new text; a refusal when the text is not YAML, an operation is not in it, or its estimate is shared through
 * an anchor (then nothing is written at all)
 *
 * Example: a change of operation 40's piece to 130 s turns `estimate: { piece: 90 s }` into `estimate: { piece: 130 s }`.
 */
export function writeEstimates(planText: string, changes: readonly EstimateChange[]): Result<string> {
  return changes.reduce<Result<string>>(
    (text, change) => andThen(text, (current) => writeEstimate(current, change)),
    answer(planText),
  );
}

function writeEstimate(text: string, change: EstimateChange): Result<string> {
  const operation = operationIn(text, change.operation);
  if (!operation.ok) return operation;
  const value = secondsText(change.suggested_s);
  const edit = editFor(text, operation.value, change.field, value);
  if (edit === null) return refuseShared(change);
  const edited = text.slice(0, edit.from) + edit.text + text.slice(edit.to);
  const after = operationIn(edited, change.operation);
  const written = after.ok ? after.value.getIn(['estimate', change.field]) : undefined;
  return written === value ? answer(edited) : refuseShared(change);
}

const refuseShared = (change: EstimateChange): Result<string> =>
  refuse({
    what: `estimate of operation ${change.operation}`,
    found: 'written in a way that cannot be changed alone',
    allowed: `a section of its own such as estimate: { ${change.field}: ${secondsText(change.suggested_s)} }`,
    remedy: 'change it by hand',
  });

/** The mapping of the operation with this number, as it stands under `operations`. */
function operationIn(text: string, number: number): Result<YAMLMap> {
  const document = parseDocument(text, { schema: 'failsafe' });
  const problem = document.errors[0];
  if (problem !== undefined) {
    const found = problem.message.split('\n')[0] ?? 'unreadable';
    return refuse({ what: 'plan text', found, allowed: 'readable YAML', remedy: 'mend the file first' });
  }
  const operations = document.get('operations');
  const items = isSeq(operations) ? operations.items : [];
  const operation = items.find((item) => isMap(item) && Number(item.get('number')) === number);
  if (isMap(operation)) return answer(operation);
  return refuse({
    what: 'operation',
    found: String(number),
    allowed: 'the number of an operation in the plan',
    remedy: 'the plan file has changed since: look at both',
  });
}

interface Edit {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** Replaces the value, or adds it to its section, or adds the section; `null` for aliases, anchors and other shapes. */
function editFor(text: string, operation: YAMLMap, field: string, value: string): Edit | null {
  const estimate = operation.get('estimate', true) as unknown;
  if (estimate === undefined) return addedTo(text, operation, 'number', `estimate: { ${field}: ${value} }`);
  if (!isMap(estimate) || estimate.anchor !== undefined) return null;
  const old = estimate.get(field, true) as unknown;
  if (old === undefined) return addedTo(text, estimate, null, `${field}: ${value}`);
  if (!isScalar(old) || old.anchor !== undefined || !old.range) return null;
  return { from: old.range[0], to: old.range[1], text: value };
}

/** A new entry: first inside braces, else on a line of its own below the entry `below` (or above the first one). */
function addedTo(text: string, map: YAMLMap, below: string | null, entry: string): Edit | null {
  if (!map.range) return null;
  if (map.flow === true) {
    const at = map.range[0] + 1;
    return { from: at, to: at, text: ` ${entry}${map.items.length === 0 ? ' ' : ','}` };
  }
  const pair = map.items.find((item) => below === null || String(item.key) === below);
  const key = pair?.key;
  if (!isScalar(key) || !key.range) return null;
  const indent = ' '.repeat(key.range[0] - (text.lastIndexOf('\n', key.range[0] - 1) + 1));
  const newline = text.includes('\r\n') ? '\r\n' : '\n';
  if (below === null) return { from: key.range[0], to: key.range[0], text: `${entry}${newline}${indent}` };
  const lineEnd = text.indexOf(newline, key.range[0]);
  const at = lineEnd === -1 ? text.length : lineEnd;
  return { from: at, to: at, text: `${newline}${indent}${entry}` };
}

/** `130 s`; whole minutes from ten up as `20 min`. */
const secondsText = (seconds: number): string =>
  seconds >= 600 && seconds % 60 === 0 ? `${seconds / 60} min` : `${Number(seconds.toFixed(1))} s`;
