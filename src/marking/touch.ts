/**
 * What a rule's end rested on: a reading counts only when it was on what the finished work will meet there.
 */
import type { FoundPlace } from '../survey/place.ts';
import { meetsBare, type SizeName } from '../survey/size.ts';
import type { Site } from './site.ts';

/**
 * Says whether a place was read on what the work meets: for a carcass the bare surface or a trim that stays, for a
 * frame the bare surface alone.
 */
export function touchesWork(site: Site, place: FoundPlace, size: SizeName): boolean {
  if (!place.on) return true;
  return !meetsBare(size) && site.brief.fates[place.on.name] === 'stays';
}
