/**
 * What is told, over what is usual.
 */

/** Gives the usual values with those that are told in their place; one that is told as undefined is not told. */
export function toldOver<T extends object>(
  usual: T,
  told: { readonly [K in keyof T]?: T[K] | undefined } | undefined,
): T {
  const values = { ...usual };
  for (const name of Object.keys(usual) as (keyof T)[]) {
    const value = told?.[name];
    if (value !== undefined) values[name] = value;
  }
  return values;
}
