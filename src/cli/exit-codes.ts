/** Exit codes of the program, one meaning each; 64 and up as the BSD sysexits list has them. */
export const exitCodes = {
  done: 0,
  refused: 1,
  usage: 64,
  badPlanOrJournal: 65,
  noSuchInput: 66,
  ourBug: 70,
  cannotCreate: 73,
  cannotWrite: 74,
  heldByAnother: 75,
} as const;
