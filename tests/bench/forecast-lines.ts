/**
 * `npm run -s forecast-lines`: the forecast behind the line protocol on stdin and stdout, one JSON object a line, each ask
 * answered at once. A development command for scorers; the forecaster behind it is the one that the screen uses.
 */
import { createInterface } from 'node:readline';
import { type Line, type Session, takeLine } from './line-session.ts';

let session: Session | null = null;
const lines = createInterface({ input: process.stdin, crlfDelay: Number.POSITIVE_INFINITY });
lines.on('line', (text) => {
  if (text.trim() === '') return;
  const taken = takeLine(session, JSON.parse(text) as Line);
  session = taken.session;
  if (taken.answer !== null) process.stdout.write(`${JSON.stringify(taken.answer)}\n`);
});
