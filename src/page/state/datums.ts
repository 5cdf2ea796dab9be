/**
 * Datums that can be read from now: what levels that stand throw, and pencil lines between two marks of one line.
 */
import type { Side } from '../../recess/recess-spec.ts';
import { type DatumKind, datumName, datumParts } from '../../survey/act.ts';
import { isThrown, type LearnerView } from '../../survey/learner-view.ts';

export interface PencilLineSaid {
  readonly datum: string;
  readonly kind: DatumKind;
  readonly surface: Side;
  /** `F from mark 1 to mark 3`. */
  readonly says: string;
}

/** Marks nearer to each other give no line, mm. */
const shortestMm = 50;

type Marked = Pick<LearnerView, 'marks'>;

/** Gives the lines that marks of one datum on one surface give when they are joined. */
export function pencilLines({ marks }: Marked): readonly PencilLineSaid[] {
  return marks.flatMap((a, i) =>
    marks.slice(i + 1).flatMap((b): PencilLineSaid[] => {
      const kind = datumParts(a.datum).kind;
      const { surface } = a.place;
      if (a.datum !== b.datum || surface !== b.place.surface || !a.at || !b.at) return [];
      const [dx, dy, dz] = [a.at.x - b.at.x, a.at.y - b.at.y, a.at.z - b.at.z];
      if (Math.sqrt(dx * dx + dy * dy + dz * dz) < shortestMm) return [];
      const says = `${a.datum} from mark ${a.mark} to mark ${b.mark}`;
      return [{ datum: `${kind}:${a.mark}-${b.mark}`, kind, surface, says }];
    }),
  );
}

/** Gives the datums of a kind that are thrown now, the level in hand first. */
export function thrownOf(view: Pick<LearnerView, 'levels'>, kind: DatumKind): readonly string[] {
  return [...view.levels]
    .reverse()
    .map((l) => datumName(kind, l.setUp))
    .filter((datum) => isThrown(view, datum));
}
