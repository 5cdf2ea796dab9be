/**
 * The canvas that the room is drawn on: WebGL where it is real, 2-D canvas where it would be done by the processor.
 */
import 'pixi.js/unsafe-eval';
import 'pixi.js/graphics';
import { CanvasRenderer, Container, Graphics, WebGLRenderer } from 'pixi.js';
import type { Item } from '../../drawing/item.ts';
import { drawItems, type Palette } from './draw-items.ts';

export interface RoomCanvas {
  readonly canvas: HTMLCanvasElement;
  draw(items: readonly Item[], palette: Palette): void;
  resize(width: number, height: number): void;
  destroy(): void;
}

/** Makes a canvas of a size in CSS px. */
export async function makeRoomCanvas(width: number, height: number): Promise<RoomCanvas> {
  const renderer = hasRealWebGL() ? new WebGLRenderer() : new CanvasRenderer();
  await renderer.init({
    width,
    height,
    antialias: true,
    backgroundAlpha: 0,
    resolution: Math.min(devicePixelRatio, 2),
    autoDensity: true,
    skipExtensionImports: true,
  });
  const root = new Container();
  const pen = new Graphics();
  root.addChild(pen);
  return {
    canvas: renderer.canvas as HTMLCanvasElement,
    draw: (items, palette) => {
      pen.clear();
      drawItems(pen, items, palette);
      renderer.render(root);
    },
    resize: (w, h) => renderer.resize(w, h),
    destroy: () => {
      root.destroy({ children: true });
      renderer.destroy();
    },
  };
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
