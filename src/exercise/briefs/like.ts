/**
 * Which of the three invented severities a brief is drawn like: they say how much room a carcass has, how much stock there
 * is, and how far a reference is seen to waver. A room by a document is drawn about as a settled house is, and then kept
 * inside its limits; the North American guideline lets walls lean and bow as thick stone ones do.
 */
export function like(severity: string): string {
  return byDocument[severity] ?? severity;
}

const byDocument: Readonly<Record<string, string>> = {
  'uk-2019': 'settled',
  'uk-2020': 'settled',
  'din-finished': 'settled',
  'din-higher': 'settled',
  'na-guideline': 'stone',
};
