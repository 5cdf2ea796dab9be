/**
 * Lessons: a folder with a Markdown file that begins with a header of data, and a model log.
 *
 * The header names the rooms and what passes; the text is shown as text, block by block. Markup other than headings,
 * paragraphs, lists, emphasis and code is shown as it was written, never run.
 */
import * as v from 'valibot';
import { findSchema } from '../exercise/exercise.ts';
import { sides } from '../recess/recess-spec.ts';

const text = v.pipe(v.string(), v.minLength(1), v.maxLength(400));
const count = v.pipe(v.number(), v.integer(), v.minValue(1), v.maxValue(100));

export const lessonHeaderSchema = v.strictObject({
  format: v.literal('offtrue-lesson'),
  version: v.literal(1),
  title: text,
  goal: text,
  /** Exercise codes; one is drawn each time the lesson is opened, so that no two goes are alike. */
  pool: v.pipe(v.array(v.string()), v.minLength(1), v.maxLength(32)),
  /** What is to be found; left out, all that the codes' own briefs ask. */
  find: v.optional(findSchema),
  /** Whether the level stands lined up when the lesson opens. */
  standing: v.boolean(),
  /** The first run that is laid out. */
  run: v.optional(
    v.strictObject({
      surface: v.picklist(sides),
      rows: v.pipe(v.array(v.union([v.number(), v.literal('F')])), v.minLength(1), v.maxLength(9)),
      columns: v.pipe(v.array(v.union([v.number(), v.literal('F')])), v.minLength(1), v.maxLength(9)),
    }),
  ),
  passes: v.variant('by', [
    /** So many readings booked within a distance of the middle of the line, as it was seen on the rule. */
    v.strictObject({
      by: v.literal('readings'),
      of: count,
      atLeast: count,
      withinMm: v.pipe(v.number(), v.minValue(0.5)),
    }),
    /** The report's verdict is none of these. */
    v.strictObject({
      by: v.literal('verdict'),
      not: v.pipe(v.array(v.picklist(['scrap', 'rework', 'visible', 'waste', 'untidy'])), v.minLength(1)),
    }),
  ]),
  /** A field log of the lesson's first code, surveyed by the right method. */
  model: v.string(),
});

export type LessonHeader = Readonly<v.InferOutput<typeof lessonHeaderSchema>>;

/** A run of text in one voice. */
export interface Span {
  readonly text: string;
  readonly voice: 'plain' | 'strong' | 'emphasis' | 'code';
}

/** A block of a lesson's text. */
export type Block =
  | { readonly kind: 'heading'; readonly spans: readonly Span[] }
  | { readonly kind: 'paragraph'; readonly spans: readonly Span[] }
  | { readonly kind: 'list'; readonly ordered: boolean; readonly items: readonly (readonly Span[])[] };

export interface Lesson {
  readonly name: string;
  readonly header: LessonHeader;
  readonly blocks: readonly Block[];
}
