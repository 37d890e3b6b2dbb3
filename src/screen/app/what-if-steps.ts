/** "If I stop at ...", "if I make n more", "with n loads", and other hours for tonight: what each needs to be asked. */
import type { Supposition } from '../../forecast/suppose.ts';
import type { Action, Next, Step } from '../flow/flow.ts';
import { choice, close, open, piecesEntry } from './steps.ts';

const suppose = (question: Supposition): Next => ({ kind: 'do', action: { kind: 'suppose', question } });

/** The three questions; each ends in a page and changes nothing. */
export function whatIfStep(): Step {
  return choice(
    'WHAT IF',
    [
      { label: 'if I stop at a time of day', next: open(timeStep('IF I STOP AT', (time) => suppose({ until: time }))) },
      {
        label: 'if I make more',
        next: open(
          piecesEntry('IF I MAKE MORE: how many?', 10_000, (more) => (more === 0 ? close : suppose({ more }))),
        ),
      },
      {
        label: 'with the rest of this operation in so many loads',
        next: open(piecesEntry('IN HOW MANY LOADS?', 1000, (loads) => (loads === 0 ? close : suppose({ loads })))),
      },
    ],
    ['Only an answer: the batch and its hours stay as they are.'],
  );
}

/** Until when the shop is open tonight; all other days stay as they are. */
export function tonightStep(): Step {
  return timeStep('OPEN TONIGHT UNTIL', (_, minutes) => {
    const action: Action = { kind: 'open until', minutes };
    return { kind: 'do', action };
  });
}

function timeStep(prompt: string, take: (time: string, minutes: number) => Next): Step {
  return {
    kind: 'entry',
    prompt,
    about: ['A time of day: 2130, 21:30 or 21.30.'],
    entry: 'time',
    onEmpty: close,
    take: (text) => {
      const minutes = parseTimeOfDay(text);
      return typeof minutes === 'string' ? minutes : take(timeText(minutes), minutes);
    },
  };
}

/**
 * Minutes after midnight of a typed time of day, with or without a mark between hours and minutes; hours alone are full
 * hours. A text says what is wrong. Example: `2130`, `21:30` and `21.30` are 1290, `9` is 540, `24:00` is 1440.
 */
export function parseTimeOfDay(text: string): number | string {
  const [, hours, minutes] = /^(\d{1,2})(?:[:.]?(\d{2}))?$/.exec(text) ?? [];
  const total = Number(hours) * 60 + Number(minutes ?? 0);
  const isTime = hours !== undefined && Number(minutes ?? 0) < 60 && total <= 24 * 60;
  return isTime ? total : `"${text}" is no time of day`;
}

const timeText = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;
