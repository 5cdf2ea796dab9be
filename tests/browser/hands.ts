/**
 * Three ways to work the page: by pointer, by keys alone, by touch. Each does the same to what is named the same.
 */
import type { Page } from '@playwright/test';
import { tabTo } from './page-hand.ts';

export interface Hands {
  readonly way: string;
  /** Presses a button, a tab or a step. */
  press(name: RegExp): Promise<void>;
  /** Writes into a box. */
  write(label: RegExp, text: string): Promise<void>;
  /** Takes an option of a choice. */
  choose(label: RegExp, option: string): Promise<void>;
  /** Ticks one of a few. */
  tick(label: RegExp): Promise<void>;
}

export function byPointer(page: Page): Hands {
  return {
    way: 'pointer',
    press: (name) => page.getByRole('button', { name }).first().click(),
    write: (label, text) => page.getByLabel(label).first().fill(text),
    choose: async (label, option) => {
      await page.getByLabel(label).first().selectOption({ label: option });
    },
    tick: (label) => page.getByLabel(label).first().click(),
  };
}

export function byTouch(page: Page): Hands {
  return {
    ...byPointer(page),
    way: 'touch',
    press: (name) => page.getByRole('button', { name }).first().tap(),
    tick: (label) => page.getByLabel(label).first().tap(),
  };
}

/** Keys alone: Tab to it, then Enter, typing, arrows or Space. */
export function byKeys(page: Page): Hands {
  return {
    way: 'keys',
    press: async (name) => {
      await tabTo(page, name);
      await page.keyboard.press('Enter');
    },
    write: async (label, text) => {
      await tabTo(page, label);
      await page.keyboard.press('Control+A');
      await page.keyboard.type(text);
    },
    choose: async (label, option) => {
      await tabTo(page, label);
      // Typing an option's words takes it, as in every native choice.
      await page.keyboard.type(option, { delay: 5 });
    },
    tick: async (label) => {
      await tabTo(page, label);
      await page.keyboard.press('Space');
    },
  };
}
