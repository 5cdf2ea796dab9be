/**
 * The canvas that the room is drawn on: WebGL where it is real, 2-D canvas where it would be done by the processor.
 *
 * It draws when it is told to and not otherwise; of its two layers only what changed is drawn anew.
 */
import 'pixi.js/unsafe-eval';
import 'pixi.js/graphics';
import { CanvasRenderer, Container, Graphics, WebGLRenderer } from 'pixi.js';
import type { Item } from '../../drawing/item.ts';
import { drawItems } from './draw-items.ts';
import type { Palette } from './palette.ts';

export interface RoomPicture {
  /** CSS px */
  readonly width: number;
  readonly height: number;
  readonly ground: readonly Item[];
  readonly work: readonly Item[];
  readonly palette: Palette;
}

export interface RoomCanvas {
  readonly canvas: HTMLCanvasElement;
  draw(picture: RoomPicture): void;
  destroy(): void;
}

/** Makes a canvas; it is drawn when it is first told to. */
export async function makeRoomCanvas(): Promise<RoomCanvas> {
  const renderer = hasRealWebGL() ? new WebGLRenderer() : new CanvasRenderer();
  await renderer.init({
    width: 1,
    height: 1,
    antialias: true,
    backgroundAlpha: 0,
    resolution: pixelRatio(),
    autoDensity: true,
    skipExtensionImports: true,
  });
  const root = new Container();
  const ground = root.addChild(new Graphics());
  const work = root.addChild(new Graphics());
  let last: RoomPicture | null = null;
  const redraw = (on: Graphics, items: readonly Item[], palette: Palette) => {
    on.clear();
    drawItems(on, items, palette);
  };
  const canvas = renderer.canvas as HTMLCanvasElement;
  const again = () => setTimeout(() => last && renderer.render(root));
  canvas.addEventListener('webglcontextrestored', again);
  return {
    canvas,
    draw: (next) => {
      if (next.width !== last?.width || next.height !== last.height || renderer.resolution !== pixelRatio())
        renderer.resize(next.width, next.height, pixelRatio());
      const repaint = next.palette !== last?.palette;
      if (repaint || next.ground !== last?.ground) redraw(ground, next.ground, next.palette);
      if (repaint || next.work !== last?.work) redraw(work, next.work, next.palette);
      last = next;
      renderer.render(root);
    },
    destroy: () => {
      canvas.removeEventListener('webglcontextrestored', again);
      last = null;
      root.destroy({ children: true });
      renderer.destroy({ removeView: true });
    },
  };
}

/** More than two device px a CSS px cost time and show nothing. */
function pixelRatio(): number {
  return Math.min(Math.max(devicePixelRatio, 1), 2);
}

/** False where WebGL is missing or is done by the processor: there the canvas renderer is several times faster. */
function hasRealWebGL(): boolean {
  const gl = document.createElement('canvas').getContext('webgl2');
  if (!gl) return false;
  const info = gl.getExtension('WEBGL_debug_renderer_info');
  const name = String(gl.getParameter(info ? info.UNMASKED_RENDERER_WEBGL : gl.RENDERER));
  gl.getExtension('WEBGL_lose_context')?.loseContext();
  return !/swiftshader|llvmpipe|softpipe|software|basic render/i.test(name);
}
