/**
 * A file or text that cannot be taken: one line that says what is wrong, where, and what was expected.
 */
import * as v from 'valibot';

export interface Refusal {
  readonly ok: false;
  /** One line, without a full stop. */
  readonly says: string;
}

export type Taken<T> = { readonly ok: true; readonly value: T } | Refusal;

/** Refuses with one line. */
export function refuse(says: string): Refusal {
  return { ok: false, says: says.replace(/\s*\n\s*/g, ' ') };
}

/**
 * Takes data by a schema, or says the first thing that is wrong with it.
 *
 * @param where - put in front, as in `line 3`
 */
export function takeBySchema<T extends v.GenericSchema>(
  schema: T,
  data: unknown,
  where: string,
): Taken<v.InferOutput<T>> {
  const result = v.safeParse(schema, data, { abortEarly: true });
  if (result.success) return { ok: true, value: result.output };
  const issue = result.issues[0];
  const field = v.getDotPath(issue) ?? '';
  const missing = issue.received === 'undefined';
  const wanted = missing ? 'a value' : expectedOf(issue);
  return refuse(`${where}${field ? `, ${field}` : ''}: expected ${wanted}, got ${missing ? 'none' : issue.received}`);
}

/** Parses JSON, or says where it breaks. */
export function takeJson(text: string, where: string): Taken<unknown> {
  try {
    return { ok: true, value: JSON.parse(text) as unknown };
  } catch {
    const start = text.length > 40 ? `${text.slice(0, 40)}...` : text;
    return refuse(`${where}: expected JSON, got ${JSON.stringify(start)}`);
  }
}

function expectedOf(issue: v.BaseIssue<unknown>): string {
  if (issue.expected === 'never') return 'no such field';
  return issue.expected ?? issue.message;
}
