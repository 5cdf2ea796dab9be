/** The lessons that are built into the page: names and titles, for the first screen. */

export const lessons: readonly { readonly name: string; readonly title: string }[] = [
  { name: '01-reading-the-rule', title: 'Reading the rule' },
  { name: '02-three-heights-two-depths', title: 'Three heights and two depths' },
  { name: '03-box-or-frame', title: 'Box or frame' },
  { name: '04-square-back', title: 'Square back' },
];
