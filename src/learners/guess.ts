/**
 * The learner who guesses: measures nothing, and sends the sizes of the brief as they stand there.
 */
import type { Survey } from '../survey/survey.ts';
import { takeInHand } from './hand.ts';
import { proposeSizes } from './proposing.ts';

/** Sends the nominal sizes, and a frame as wide and high as the opening looks. */
export function surveyByGuess(start: Survey): Survey {
  const hand = takeInHand(start);
  const { openingMm, frame } = start.world.exercise.brief;
  const more = frame ? frame.mostStockMm / 2 : 0;
  proposeSizes(hand, frame ? { 'frame-width': openingMm.width + more, 'frame-height': openingMm.height + more } : {});
  hand.act({ act: 'hand-in' });
  return hand.now();
}
