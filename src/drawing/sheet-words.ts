/**
 * The field sheet as rows: the same figures as the drawing, for tables and for those who hear it.
 */
import { sayWritten } from '../recess/lengths.ts';
import { sayPlace } from '../survey/field-sheet-words.ts';
import type { LearnerView } from '../survey/learner-view.ts';

export interface SheetRow {
  readonly booking: number;
  readonly from: string;
  readonly to: string;
  readonly value: string;
  readonly struck: boolean;
}

/** Gives every booking as a row, in the order of booking. */
export function saySheet(view: Pick<LearnerView, 'bookings'>): readonly SheetRow[] {
  return view.bookings.map(({ n, said, struck }) => {
    const end = typeof said.to === 'string' ? ` to ${said.to}` : said.to ? ` to ${sayPlace(said.to)}` : '';
    return {
      booking: n,
      from: said.what === 'offset' ? (said.datum ?? '') : said.what === 'span' ? 'tape' : 'diagonal',
      to: `${sayPlace(said.place)}${end}${said.check ? ', check' : ''}`,
      value: sayWritten(said.valueMm),
      struck,
    };
  });
}
