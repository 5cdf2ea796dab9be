/**
 * All figures, subject by subject, in an order that matters: our own room first, while nothing has cluttered the engine, peers last.
 */
import { familyFigures } from './families.ts';
import { type Figure, geometryFigures } from './geometry.ts';
import { makingFigures } from './making.ts';
import { markingFigures } from './marking.ts';
import { peerFigures, roomFigures } from './room-from-code.ts';
import { startFigures, surveyFigures } from './surveying.ts';

export interface Subject {
  readonly name: string;
  readonly figures: readonly Figure[];
}

/**
 * Measures one subject after the other.
 *
 * @param command - the path of the command
 */
export async function* subjects(command: string): AsyncGenerator<Subject> {
  const { figures, quickUs } = roomFigures();
  yield { name: 'a room from its code', figures };
  yield { name: 'geometry', figures: geometryFigures() };
  yield { name: 'marking', figures: markingFigures() };
  yield { name: 'families', figures: familyFigures() };
  yield { name: 'surveys', figures: surveyFigures() };
  yield { name: 'rooms that teach', figures: makingFigures() };
  yield { name: 'the command', figures: startFigures(command) };
  yield { name: 'peers', figures: await peerFigures(quickUs) };
}
