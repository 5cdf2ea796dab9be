/**
 * Holds what a key says of runs, shelves, cut-outs and carcasses before an open wall against the samples of the room. mm,
 * room frame. Every number is an interval that certainly contains the true one; a key's number outside it by more than the
 * tolerance is a disagreement.
 *
 * A run stands between the tightest places of its end walls over its heights and depths; an infill is what is left from its
 * end to the bare wall on the face line. A shelf's back meets the bare back wall over a strip as long as the shelf and as
 * high as it is thick. A carcass with nothing to its sides stands in the middle.
 */
import { exactly, least, minus, negated, plus } from './interval.ts';
import { type Room, standOf } from './key-oracle.ts';
import { listOf, numberOf, recordOf, type Samples, type Sizes } from './samples.ts';
import { greatest, type Interval, type Rect } from './sheet.ts';
import { peak, trough, type Wall, wallsOf } from './wall.ts';

export type SetOutVerdict = { readonly disagreements: readonly string[]; readonly widestIntervalMm: number };

const TOLERANCE = 0.01;
/** mm; the border between `yes`, `touches` and `no`. */
const TOUCH = 0.01;

type Json = Readonly<Record<string, unknown>>;

/** What is held so far. */
class Held {
  readonly against: string[] = [];
  widest = 0;

  number(what: string, said: unknown, { low, high }: Interval): void {
    const mm = numberOf(said, what);
    this.widest = Math.max(this.widest, high - low);
    if (!(mm >= low - TOLERANCE && mm <= high + TOLERANCE))
      this.against.push(`${what}: the key says ${mm}, the samples say ${low} to ${high}`);
  }

  isNull(what: string, said: unknown): void {
    if (said !== null) this.against.push(`${what}: the key says ${JSON.stringify(said)}, but that side is open`);
  }

  verdict(): SetOutVerdict {
    return { disagreements: this.against, widestIntervalMm: this.widest };
  }
}

/** Holds a run's numbers; `atMm` are the places that were asked about, in the room. */
export function holdRun(room: Room, keyJson: unknown, asked: { size: Sizes; atMm: readonly number[] }): SetOutVerdict {
  const held = new Held();
  const key = recordOf(recordOf(keyJson, 'key')['run'], 'key.run');
  const { tightest, bottom } = standOf(room, asked.size);
  held.number('run.leftMm', key['leftMm'], tightest.left);
  held.number('run.rightMm', key['rightMm'], tightest.right);
  const set = recordOf(key['set'], 'key.run.set');
  const from = asked.atMm[0]!;
  const to = asked.atMm[asked.atMm.length - 1]!;
  const clear = recordOf(set['clearanceMm'], 'key.run.set.clearanceMm');
  held.number('clearance left', clear['left'], minus(exactly(from), tightest.left));
  held.number('clearance right', clear['right'], minus(tightest.right, exactly(to)));
  const infill = recordOf(set['infillMm'], 'key.run.set.infillMm');
  for (const side of ['left', 'right'] as const) {
    const [one, most] = listOf(infill[side], `infill ${side}`);
    const end = side === 'left' ? from : -to;
    const wall = bareOnFaceLine(room[side], bottom, asked.size.height);
    held.number(`least infill ${side}`, one, minus(exactly(end), wall.most));
    held.number(`most infill ${side}`, most, minus(exactly(end), wall.least));
  }
  const even = (to - from) / (asked.atMm.length - 1);
  const off = Math.max(...asked.atMm.map((at, i) => Math.abs(at - from - i * even)));
  held.number('unevenMm', set['unevenMm'], exactly(off));
  return held.verdict();
}

/** The bare wall's bulk along the face line, from a bottom known to an interval to a height over it. */
function bareOnFaceLine(
  { sheet, inward }: Wall,
  bottom: Interval,
  height: number,
): { least: Interval; most: Interval } {
  const inner: Rect = { u: [0, 0], v: [bottom.high, bottom.low + height] };
  const outer: Rect = { u: [0, 0], v: [bottom.low, bottom.high + height] };
  const other = inward > 0 ? -1 : 1;
  return {
    most: { low: greatest(sheet, inward, inner).low, high: greatest(sheet, inward, outer).high },
    least: { low: -greatest(sheet, other, outer).high, high: -greatest(sheet, other, inner).low },
  };
}

/** Holds the shelves' numbers: the wall behind them, and what comes off a blank of a depth. */
export function holdShelves(samples: Samples, keyJson: unknown, depthMm: number): SetOutVerdict {
  const held = new Held();
  const brief = recordOf(recordOf(samples.brief.raw, 'brief')['shelves'], 'brief.shelves');
  const [back] = wallsOf(samples, 'back');
  if (!back) throw new RangeError('samples: expected a back');
  const half = numberOf(brief['lengthMm'], 'lengthMm') / 2;
  const thick = numberOf(brief['thicknessMm'], 'thicknessMm');
  const strips = listOf(brief['heightsMm'], 'heightsMm').map((one): Rect => {
    const z = numberOf(one, 'heightsMm');
    return { u: [-half, half], v: [z, z + thick] };
  });
  const farthest = strips.map((rect) => greatest(back.sheet, 1, rect));
  const nearest = strips.map((rect) => negated(greatest(back.sheet, -1, rect)));
  const most = negated(least(...farthest.map(negated)));
  const tightest = least(...nearest);
  const key = recordOf(recordOf(keyJson, 'key')['shelf'], 'key.shelf');
  const [one, other] = listOf(key['backMm'], 'key.shelf.backMm');
  held.number('shelf.backMm.0', one, tightest);
  held.number('shelf.backMm.1', other, most);
  const [little, much] = listOf(recordOf(key['blank'], 'key.shelf.blank')['stockMm'], 'key.shelf.blank.stockMm');
  held.number('least stock', little, minus(exactly(depthMm), most));
  held.number('most stock', much, minus(exactly(depthMm), tightest));
  return held.verdict();
}

/** Holds the boxes' middles and sizes against the bands that the samples print. */
export function holdCutOuts(samples: Samples, keyJson: unknown): SetOutVerdict {
  const held = new Held();
  const names = listOf(recordOf(samples.brief.raw, 'brief')['cutOuts'], 'brief.cutOuts');
  const said = listOf(recordOf(keyJson, 'key')['cutOuts'], 'key.cutOuts').map((one) => recordOf(one, 'cut-out'));
  for (const name of names) {
    const trim = samples.trims.find((t) => t.name === name);
    const key = said.find((one) => one['name'] === name);
    if (!trim || !key) {
      held.against.push(`cut-out ${name}: ${trim ? 'the key has none' : 'there is no such band'}`);
      continue;
    }
    const [x, z] = listOf(key['middleMm'], `${name}.middleMm`);
    const [wide, tall] = listOf(key['sizeMm'], `${name}.sizeMm`);
    held.number(`${name} middle x`, x, exactly((trim.uMm[0] + trim.uMm[1]) / 2));
    held.number(`${name} middle z`, z, exactly((trim.vMm[0] + trim.vMm[1]) / 2));
    held.number(`${name} width`, wide, exactly(trim.uMm[1] - trim.uMm[0]));
    held.number(`${name} height`, tall, exactly(trim.vMm[1] - trim.vMm[0]));
  }
  if (said.length !== names.length)
    held.against.push(`cut-outs: the key has ${said.length}, the brief ${names.length}`);
  return held.verdict();
}

/** How a carcass stands before an open wall: its bottom, and what is clear over and behind it. */
type OpenStand = { readonly bottom: Interval; readonly top: Interval; readonly back: Interval };

/** Holds a key of a room whose two side walls are open. */
export function holdOpen(samples: Samples, keyJson: unknown, asked: Sizes): SetOutVerdict {
  const held = new Held();
  const key = recordOf(keyJson, 'key');
  const { brief } = samples;
  const carcass = recordOf(key['carcass'], 'key.carcass');
  const stand = openStand(samples, asked);
  const nominal = openStand(samples, brief.carcassMm);
  const at = recordOf(carcass['at'], 'key.carcass.at');
  held.number('carcass.at.leftMm', at['leftMm'], exactly(-asked.width / 2));
  held.number('carcass.at.bottomMm', at['bottomMm'], stand.bottom);
  const clear = recordOf(carcass['clearanceMm'], 'key.carcass.clearanceMm');
  held.number('clearance top', clear['top'], stand.top);
  held.number('clearance back', clear['back'], stand.back);
  for (const side of ['left', 'right']) held.isNull(`clearance ${side}`, clear[side]);
  for (const what of ['widestMm', 'mouthWidthMm', 'opening']) held.isNull(what, key[what]);
  holdFits(held, carcass, { stand, brief });
  holdHanging(held, key, {
    what: 'tallestMm',
    on: nominal.back,
    mm: plus(nominal.top, exactly(brief.carcassMm.height)),
  });
  holdHanging(held, key, {
    what: 'deepestMm',
    on: nominal.top,
    mm: plus(nominal.back, exactly(brief.carcassMm.depth)),
  });
  holdFloorAndMargins(held, samples, { key, stand, asked });
  return held.verdict();
}

function openStand(samples: Samples, size: Sizes): OpenStand {
  const { brief } = samples;
  const [floor] = wallsOf(samples, 'floor');
  const [ceiling] = wallsOf(samples, 'ceiling');
  const [back] = wallsOf(samples, 'back');
  if (!floor || !ceiling || !back) throw new RangeError('samples: expected a floor, a ceiling and a back');
  const deep = brief.carcassFrontMm + size.depth;
  const half = brief.openingMm.width / 2;
  const high = greatest(floor.sheet, 1, { u: [-half, half], v: [brief.mouthMm, deep] });
  const bottom = plus(exactly(brief.plinthMm), high);
  const across: Rect['u'] = [-size.width / 2, size.width / 2];
  const overhead = peak(ceiling, { u: across, v: [brief.mouthMm, deep] });
  const inner = peak(back, { u: across, v: [bottom.high, bottom.low + size.height] });
  const outer = peak(back, { u: across, v: [bottom.low, bottom.high + size.height] });
  return {
    bottom,
    top: minus(negated(overhead), plus(bottom, exactly(size.height))),
    back: minus({ low: -outer.high, high: -inner.low }, exactly(deep)),
  };
}

function holdFits(held: Held, carcass: Json, of: { stand: OpenStand; brief: Samples['brief'] }): void {
  const { top, back } = of.stand;
  const { askMm } = of.brief;
  const spare = least(minus(top, exactly(askMm.top)), minus(back, exactly(askMm.back)));
  const [low, high] = [spare.low - TOLERANCE, spare.high + TOLERANCE];
  const could = { yes: high > TOUCH, touches: low <= TOUCH && high >= -TOUCH, no: low < -TOUCH };
  if (!could[carcass['fits'] as keyof typeof could])
    held.against.push(`fits: the key says ${carcass['fits']}, with ${spare.low} to ${spare.high} to spare`);
  const bare = least(top, back);
  const goes = carcass['goesInBare'];
  if ((goes === true && bare.high < -TOLERANCE) || (goes !== true && bare.low > TOLERANCE))
    held.against.push(`goesInBare: the key says ${goes}, with ${bare.low} to ${bare.high} clear`);
}

function holdHanging(held: Held, key: Json, size: { what: string; on: Interval; mm: Interval }): void {
  const said = key[size.what];
  if (said === null) {
    if (size.on.low > TOLERANCE) held.against.push(`${size.what}: null, though the others go in`);
    return;
  }
  if (size.on.high < -TOLERANCE) held.against.push(`${size.what}: ${said}, though the others do not go in`);
  held.number(size.what, said, size.mm);
}

function holdFloorAndMargins(held: Held, samples: Samples, of: { key: Json; stand: OpenStand; asked: Sizes }): void {
  const { brief } = samples;
  const { stand, asked } = of;
  const [floor] = wallsOf(samples, 'floor');
  const [ceiling] = wallsOf(samples, 'ceiling');
  if (!floor || !ceiling) throw new RangeError('samples: expected a floor and a ceiling');
  const half = brief.openingMm.width / 2;
  const line: Rect = { u: [-half, half], v: [0, 0] };
  const [low, high] = listOf(of.key['plinthMm'], 'plinthMm');
  held.number('plinthMm.0', low, minus(stand.bottom, greatest(floor.sheet, 1, line)));
  held.number('plinthMm.1', high, plus(stand.bottom, greatest(floor.sheet, -1, line)));
  const top = plus(stand.bottom, exactly(asked.height));
  for (const [i, said] of listOf(of.key['marginsMm'], 'marginsMm').entries()) {
    const x = ((i - 1) * asked.width) / 2;
    const rect: Rect = { u: [x, x], v: [brief.carcassFrontMm, brief.carcassFrontMm] };
    held.number(`marginsMm.${i}`, said, minus({ low: -peak(ceiling, rect).high, high: -trough(ceiling, rect) }, top));
  }
}
