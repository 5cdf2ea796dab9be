/**
 * The brief as the card shows it: a row for each thing that is to be known, whatever is to be made.
 */
import type { Brief } from '../exercise/brief.ts';
import { referenceWords } from '../exercise/brief-words.ts';
import { sayRoughly, sayWritten } from '../recess/lengths.ts';
import type { FamilyName } from '../recess/recess-spec.ts';
import { sideName } from '../recess/side-words.ts';
import type { LearnerView } from '../survey/learner-view.ts';

export type BriefRow = readonly [name: string, value: string];

/** Gives the rows, in the order of the job. */
export function briefRows({
  brief,
  trims,
  outline,
}: Pick<LearnerView, 'brief' | 'trims' | 'outline'>): readonly BriefRow[] {
  const { openingMm, finishMm, cutOuts, cutOutSpareMm } = brief;
  const spare = `${sayWritten(cutOutSpareMm?.least ?? 0)} to ${sayWritten(cutOutSpareMm?.most ?? 0)} clear all round`;
  return [
    [
      'Opening, roughly',
      `${sayRoughly(openingMm.width)} × ${sayRoughly(openingMm.height)}, ${sayRoughly(openingMm.depth)} deep`,
    ],
    ['Face line', faceLine(brief)],
    ...madeRows(brief, outline.family),
    ...(cutOuts ? [['The back is cut for', `${cutOuts.join(', ')}; ${spare}`] as const] : []),
    ...finishMm.map(
      ({ surface, mm }): BriefRow => [
        'To come before fitting',
        `${sayWritten(mm)} on the ${sideName(outline, surface)}`,
      ],
    ),
    ...trims
      .filter((t) => !cutOuts?.includes(t.name))
      .map((t): BriefRow => [t.name, t.fate === 'off' ? 'comes off' : t.fate === 'cut' ? 'may be cut' : 'stays']),
    ...accessRows(brief),
  ];
}

function faceLine({ reference, setBackMm, mouthMm }: Brief): string {
  const line = setBackMm
    ? `${sayWritten(setBackMm)} behind ${referenceWords[reference]}`
    : `follows ${referenceWords[reference]}`;
  return mouthMm < 0 ? `${line}, ${sayWritten(-mouthMm)} behind the breast's face` : line;
}

function madeRows(brief: Brief, family: FamilyName): readonly BriefRow[] {
  const { carcassMm, askMm, frame, shelves, modules } = brief;
  if (shelves)
    return [
      ['Shelves', `${sayWritten(shelves.thicknessMm)} thick, ${sayWritten(shelves.lengthMm)} long, their fronts on F`],
      ['Undersides', `${shelves.heightsMm.map((mm) => sayWritten(mm)).join(', ')} up`],
      [
        'Depth',
        `one for all, to be found; ${sayWritten(shelves.leastStockMm)} to ${sayWritten(shelves.mostStockMm)} to scribe off the back`,
      ],
    ];
  if (brief.lining) return liningRows(brief);
  const size = (s: { nominalMm: number; find: boolean }) => (s.find ? 'to be found' : sayWritten(s.nominalMm));
  const sides = family === 'plain-wall' ? '' : `${sayWritten(askMm.left)} left, ${sayWritten(askMm.right)} right, `;
  return [
    [
      modules ? 'All carcasses together' : 'Carcass',
      `width ${size(carcassMm.width)}, height ${size(carcassMm.height)}`,
    ],
    ['Carcass depth', `${size(carcassMm.depth)}, begins ${sayWritten(brief.carcassFrontMm)} behind F`],
    ...shapeRows(brief),
    ...(modules
      ? [
          ['Side by side', `${modules.count} of equal widths, set out from S`] as const,
          [
            'Infill at each end',
            `${sayWritten(askMm.left)} at least, ${sayWritten(modules.mostInfillMm)} at most`,
          ] as const,
        ]
      : []),
    ['Leave', `${modules ? '' : sides}${sayWritten(askMm.top)} over, ${sayWritten(askMm.back)} behind`],
    ['Plinth', `${sayWritten(brief.plinthMm)} from the high point of the floor`],
    ...(frame
      ? [
          [
            'Frame',
            `${sayWritten(frame.thicknessMm)} thick, ${sayWritten(frame.leastStockMm)} to ${sayWritten(frame.mostStockMm)} to scribe off each edge`,
          ] as const,
        ]
      : []),
  ];
}

/** A top that slopes, a corner that is cut out. */
function shapeRows({ slope, notch }: Brief): readonly BriefRow[] {
  return [
    ...(slope
      ? [
          [
            'Sloped top',
            slope.find
              ? `low on the ${slope.low}, its heights to be found`
              : `from ${sayWritten(slope.lowMm)} on the ${slope.low} to ${sayWritten(slope.highMm)}`,
          ] as const,
        ]
      : []),
    ...(notch
      ? [
          [
            'Notch',
            `${sayWritten(notch.widthMm)} × ${sayWritten(notch.heightMm)} off the upper ${notch.side} corner`,
          ] as const,
        ]
      : []),
  ];
}

function liningRows({ lining, carcassMm, askMm, plinthMm }: Brief): readonly BriefRow[] {
  if (!lining) return [];
  const size = (s: { nominalMm: number; find: boolean }) => (s.find ? 'to be found' : sayWritten(s.nominalMm));
  return [
    [
      'Lining, outside',
      `width ${size(carcassMm.width)}, height ${size(carcassMm.height)}; boards ${sayWritten(lining.thicknessMm)} thick`,
    ],
    [
      'Through the wall',
      `${size(carcassMm.depth)}; ${sayWritten(lining.leastStockMm)} to ${sayWritten(lining.mostStockMm)} to plane off the far edge`,
    ],
    [
      'Packing',
      `${sayWritten(askMm.left)} left, ${sayWritten(askMm.right)} right, ${sayWritten(askMm.top)} over${plinthMm > 0 ? `, ${sayWritten(plinthMm)} under` : ''}`,
    ],
  ];
}

function accessRows({ access }: Brief): readonly BriefRow[] {
  if (!access) return [];
  const plinth = `the plinth comes ${access.plinthSeparate ? 'separately' : 'on it'}`;
  const { door, turn } = access;
  return [
    ['Stood up', `under ${sayWritten(access.clearHeightMm)}; ${plinth}`],
    ...(door ? [['Narrowest door', `${sayWritten(door.widthMm)} × ${sayWritten(door.heightMm)}`] as const] : []),
    ...(turn
      ? [
          [
            'Turn of the stair',
            `${sayWritten(turn.beforeMm)} wide before, ${sayWritten(turn.afterMm)} after, ${sayWritten(turn.heightMm)} high`,
          ] as const,
        ]
      : []),
  ];
}
