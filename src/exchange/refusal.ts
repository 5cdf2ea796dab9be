/**
 * A file or text that cannot be taken: one line that says what is wrong, where, and what was expected.
 */
import * as v from 'valibot';

export interface Refusal {
  readonly ok: false;
  /** One line, without a full stop. */
  readonly says: string;
  /** The field that is wrong, where it is one, and what was expected there. */
  readonly field?: string;
  readonly expected?: string;
}

export type Taken<T> = { readonly ok: true; readonly value: T } | Refusal;

/** Refuses with one line. */
export function refuse(says: string, at: { readonly field?: string; readonly expected?: string } = {}): Refusal {
  return { ok: false, says: says.replace(/\s*\n\s*/g, ' '), ...at };
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
  const whole = result.issues[0];
  const issue = wrongWithin(whole) ?? whole;
  const field = [whole, issue === whole ? null : issue]
    .map((i) => (i && v.getDotPath(i)) ?? '')
    .filter((name) => name !== '')
    .join('.');
  const missing = issue.received === 'undefined';
  const expected = missing ? 'a value' : expectedOf(issue);
  const got = missing ? 'none' : issue.received;
  return refuse(`${where}${field ? `, ${field}` : ''}: expected ${expected}, got ${got}`, { field, expected });
}

/** Parses JSON, with or without a byte order mark before it, or says where it breaks. */
export function takeJson(text: string, where: string): Taken<unknown> {
  try {
    return { ok: true, value: JSON.parse(text.replace(/^\uFEFF/, '')) as unknown };
  } catch {
    const said = text.trim();
    if (said === '')
      return refuse(`${where}: expected JSON, got nothing: it is empty`, { field: '', expected: 'JSON' });
    if (/^[{[]/.test(said) && !/[}\]]$/.test(said))
      return refuse(
        `${where}: expected JSON, but it breaks off in the middle, after ${sayEnd(said)}: was it cut short?`,
        {
          field: '',
          expected: 'JSON',
        },
      );
    const start = text.length > 40 ? `${text.slice(0, 40)}...` : text;
    return refuse(`${where}: expected JSON, got ${JSON.stringify(start)}`, { field: '', expected: 'JSON' });
  }
}

/** Of data that may have one of several forms: the field that is there and wrong, where one form has it. */
function wrongWithin(issue: v.BaseIssue<unknown>): v.BaseIssue<unknown> | undefined {
  return issue.issues?.find((i) => i.path && i.received !== 'undefined' && i.expected !== 'never');
}

/** The last few signs of a text, in quotes. */
function sayEnd(text: string): string {
  return JSON.stringify(text.length > 20 ? `...${text.slice(-20)}` : text);
}

function expectedOf(issue: v.BaseIssue<unknown>): string {
  if (issue.expected === 'never') return 'no such field';
  // What the schema says itself is plainer than the pattern that it stands for.
  if (!issue.message.startsWith('Invalid')) return issue.message;
  if (issue.type === 'integer') return 'a whole number';
  const bound = (issue as { requirement?: unknown }).requirement;
  if (issue.type === 'min_value') return `${bound} or more`;
  if (issue.type === 'max_value') return `${bound} or less`;
  if (issue.type === 'max_length' || issue.type === 'min_length') return `a length ${issue.expected}`;
  return issue.expected ?? issue.message;
}
