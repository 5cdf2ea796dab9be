/**
 * Reading a lesson's file: the header between two lines of dashes, then Markdown.
 */

import type { Nodes, RootContent } from 'mdast';
import { fromMarkdown } from 'mdast-util-from-markdown';
import * as v from 'valibot';
import { parse } from 'yaml';
import { type Block, type Lesson, lessonHeaderSchema, type Span } from './lesson.ts';

/**
 * Reads a lesson.
 *
 * @param name - the folder's name
 * @throws {RangeError} with one line that says what is wrong in the header and where
 */
export function readLesson(name: string, text: string): Lesson {
  const parts = /^---\r?\n([\s\S]*?)\r?\n---\r?\n([\s\S]*)$/.exec(text);
  if (!parts) throw new RangeError(`lesson ${name}: it must begin with a header between two lines of ---`);
  const header = v.safeParse(lessonHeaderSchema, parse(parts[1] ?? ''));
  if (!header.success) {
    const issue = header.issues[0];
    throw new RangeError(`lesson ${name}: header, ${v.getDotPath(issue) ?? 'top'}: ${issue.message}`);
  }
  const body = parts[2] ?? '';
  return { name, header: header.output, blocks: fromMarkdown(body).children.flatMap((node) => blockOf(node, body)) };
}

function blockOf(node: RootContent, source: string): Block[] {
  switch (node.type) {
    case 'heading':
      return [{ kind: 'heading', spans: spansOf(node.children) }];
    case 'paragraph':
      return [{ kind: 'paragraph', spans: spansOf(node.children) }];
    case 'list':
      return [
        {
          kind: 'list',
          ordered: node.ordered ?? false,
          items: node.children.map((item) =>
            item.children.flatMap((c) => ('children' in c ? spansOf(c.children) : [])),
          ),
        },
      ];
    default:
      return [{ kind: 'paragraph', spans: [{ text: written(node, source), voice: 'plain' }] }];
  }
}

function spansOf(nodes: readonly Nodes[], voice: Span['voice'] = 'plain'): Span[] {
  return nodes.flatMap((node): Span[] => {
    if (node.type === 'text') return [{ text: node.value, voice }];
    if (node.type === 'inlineCode') return [{ text: node.value, voice: 'code' }];
    if (node.type === 'strong') return spansOf(node.children, 'strong');
    if (node.type === 'emphasis') return spansOf(node.children, 'emphasis');
    if (node.type === 'html') return [{ text: node.value, voice }];
    if (node.type === 'break') return [{ text: ' ', voice }];
    return 'children' in node ? spansOf(node.children, voice) : [];
  });
}

/** What a block that is not known was written as. */
function written(node: RootContent, source: string): string {
  const { position } = node;
  return position ? source.slice(position.start.offset, position.end.offset) : '';
}
