/** Refusals as the page tells them. */
import { type Refused, refusalCodes } from '../../survey/outcome.ts';

/** Says why an act was refused, and by what. */
export function sayRefusal({ error }: Refused): string {
  return `${refusalCodes[error.code]}${error.by ? `: ${error.by}` : ''}.`;
}
