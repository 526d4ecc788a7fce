/** Step cards: what each role does on an outing, line by line, on pages of at most ten lines. */
export type { BoxColumn, Card, CardBoxes, CardLine, CardNotice, CardPart, CardTurn, CardValue } from './card.ts';
export { cardsOf } from './cardsOf.ts';
export { linesMost } from './chunks.ts';
export type { Room } from './chunks.ts';
export { gravestFirst } from './notices.ts';
export { stepFacts } from './stepFacts.ts';
export type { StepFacts } from './stepFacts.ts';
