/** Loads the renderer when a room is first drawn, so that no other screen waits for it. */
import type { RoomCanvas } from './renderer.ts';

/** Makes a canvas; null where none can be had: then the same items are drawn as SVG. */
export async function loadRenderer(): Promise<RoomCanvas | null> {
  try {
    const { makeRoomCanvas } = await import('./renderer.ts');
    return await makeRoomCanvas();
  } catch {
    return null;
  }
}
