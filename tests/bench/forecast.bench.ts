import { bench, describe } from 'vitest';
import { foldForecast, takeEvent } from '../../src/forecast/forecaster.ts';
import { askForecast, quantilesOf } from '../../src/forecast/projection.ts';
import { seededRandom } from './random.ts';

// Goals: a press at most 50 microseconds, a forecast at most 500, whatever the number of pieces.
const random = seededRandom(1);
const operations = Array.from({ length: 12 }, (_, i) => ({
  key: String(10 * (i + 1)),
  setup_s: 900,
  piece_s: 60,
  piecesPerLoad: 1,
  pieces: 2000,
}));
const state = foldForecast(
  { operations },
  Array.from({ length: 3000 }, (_, i) => ({
    kind: 'load' as const,
    operation: String(10 * ((i % 6) + 1)),
    pieces: 1,
    took_s: 66 * Math.exp(0.15 * random.normal()),
  })),
);
const ask = { operation: '60', sinceLastPress_s: 20, left: operations.map(() => ({ pieces: 1000 })) };

describe('the forecast', () => {
  bench('one press', () => {
    takeEvent(state, { kind: 'load', operation: '60', pieces: 1, took_s: 64 });
  });
  bench('one forecast with its quantiles', () => {
    const { batch, operation } = askForecast(state, ask);
    quantilesOf(batch);
    quantilesOf(operation);
  });
});
