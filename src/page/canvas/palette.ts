/**
 * The colours of the inks as the theme has them now: read from the page's custom properties, from the system's own
 * colours where those are forced.
 */
import { glowAlpha, glowPx, haloPx, type Ink, inks } from '../../drawing/pens.ts';

export interface Palette {
  readonly inks: Readonly<Record<Ink, string>>;
  /** Light under a thrown line: its own ink, thin, or where more contrast is asked a halo of paper. */
  readonly glow: { readonly ink: Ink | null; readonly alpha: number; readonly width: number };
}

const system: Readonly<Record<Ink, string>> = {
  ink: 'CanvasText',
  soft: 'CanvasText',
  graphite: 'CanvasText',
  hand: 'Highlight',
  edge: 'CanvasText',
  hatch: 'GrayText',
  paper: 'Canvas',
  sheet: 'Canvas',
  wood: 'Canvas',
  F: 'CanvasText',
  S: 'CanvasText',
  L: 'CanvasText',
};

const asks = ['(prefers-color-scheme: dark)', '(prefers-contrast: more)', '(forced-colors: active)'] as const;

/** Reads the colours. */
export function readPalette(): Palette {
  const [, contrast, forced] = asks.map((ask) => matchMedia(ask).matches);
  const style = getComputedStyle(document.documentElement);
  const own = (ink: Ink) => style.getPropertyValue(`--${ink}`).trim();
  const read = forced ? systemColour : own;
  return {
    inks: Object.fromEntries(inks.map((ink) => [ink, read(ink)])) as Record<Ink, string>,
    glow:
      contrast || forced ? { ink: 'paper', alpha: 1, width: haloPx } : { ink: null, alpha: glowAlpha, width: glowPx },
  };
}

/** Tells when the theme changes, by the device or by the page. @returns stops telling */
export function watchTheme(tell: () => void): () => void {
  const watched = asks.map((ask) => matchMedia(ask));
  for (const media of watched) media.addEventListener('change', tell);
  const page = new MutationObserver(tell);
  page.observe(document.documentElement, { attributes: true, attributeFilter: ['class'] });
  return () => {
    for (const media of watched) media.removeEventListener('change', tell);
    page.disconnect();
  };
}

/** A canvas knows no system colours by name everywhere: an element is asked what its colour comes to. */
function systemColour(ink: Ink): string {
  const probe = document.createElement('i');
  probe.style.color = system[ink];
  document.body.append(probe);
  const { color } = getComputedStyle(probe);
  probe.remove();
  return color;
}
