// Chance that is the same for the same seed, so that a failing state can be built again.

export type Chance = () => number;

/** Numbers from 0 to below 1 from a 32-bit seed (a Weyl sequence stirred by multiplications and shifts). */
export function makeChance(seed: number): Chance {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 16), 0x21f0aaad);
    mixed = Math.imul(mixed ^ (mixed >>> 15), 0x735a2d97);
    return ((mixed ^ (mixed >>> 15)) >>> 0) / 2 ** 32;
  };
}

/** A whole number from 0 to below `below`. */
export function pickBelow(chance: Chance, below: number): number {
  return Math.floor(chance() * below);
}
