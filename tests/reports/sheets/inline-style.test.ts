import type { Element } from '@xmldom/xmldom';
import { describe, expect, it } from 'vitest';
import { withInlineStyle } from '../../../server/reports/sheets/inline-style.ts';
import { parsed } from '../cards/drawing.ts';
import { sheetsOfFile } from './sheets.ts';

const styled = (css: string, body: string) =>
  parsed(withInlineStyle(`<svg xmlns="http://www.w3.org/2000/svg" class="top"><style>${css}</style>${body}</svg>`));
const of = (root: Element, id: string) =>
  [...root.getElementsByTagName('*')].find((one) => one.getAttribute('id') === id) as Element;

describe('a style sheet as attributes', () => {
  it('reaches what its selectors mean, however deep', () => {
    const root = styled(
      '.top .a{fill:red}.top .b rect{stroke:blue;stroke-width:2}text{font-size:9px}.a.c{fill:green}.x .a{fill:pink}',
      '<g class="b"><g><rect id="1" class="a"/></g></g><rect id="2" class="a c"/><rect id="3"/><text id="4">t</text>',
    );
    expect(of(root, '1').getAttribute('fill')).toBe('red');
    expect(of(root, '1').getAttribute('stroke')).toBe('blue');
    expect(of(root, '1').getAttribute('stroke-width')).toBe('2');
    // As many classes: the later rule counts.
    expect(of(root, '2').getAttribute('fill')).toBe('green');
    expect(of(root, '2').hasAttribute('stroke')).toBe(false);
    expect([...of(root, '3').attributes].map(({ name }) => name)).toEqual(['id']);
    expect(of(root, '4').getAttribute('font-size')).toBe('9px');
  });

  it('counts the more exact rule, and the sheet over an attribute', () => {
    const root = styled(
      '.top .b .a{fill:red}.a{fill:blue}',
      '<g class="b"><path id="1" class="a" fill="none" d="M0 0"/></g>',
    );
    expect(of(root, '1').getAttribute('fill')).toBe('red');
    expect(of(root, '1').getAttribute('d')).toBe('M0 0');
  });

  it('leaves text, quotes and what it does not know alone', () => {
    const root = styled(
      ".a:hover{fill:red}.a{font-family:'A B', &quot;C&quot;}@media print{}",
      '<text id="1" class="a" aria-label="a &gt; b class=&quot;z&quot;">&lt;style&gt;.a{fill:red}&lt;/style&gt;</text>',
    );
    expect(of(root, '1').hasAttribute('fill')).toBe(false);
    expect(of(root, '1').getAttribute('font-family')).toBe(`'A B', "C"`);
    expect(of(root, '1').getAttribute('aria-label')).toBe('a > b class="z"');
    expect(of(root, '1').textContent).toBe('<style>.a{fill:red}</style>');
    expect(root.getElementsByTagName('style')).toHaveLength(0);
  });

  it('leaves nothing of a diagram to chance: every shape has its fill or stroke', async () => {
    const [sheet] = await sheetsOfFile('samples/spokewagon.amps');
    const root = parsed(withInlineStyle(sheet?.svg ?? ''));
    const shapes = [...root.getElementsByTagName('*')].filter(({ tagName }) => /^(?:rect|path|circle)$/.test(tagName));
    expect(shapes.length).toBeGreaterThan(300);
    expect(shapes.filter((one) => !one.hasAttribute('fill')).map(String)).toEqual([]);
    for (const one of root.getElementsByTagName('text')) expect(one.hasAttribute('font-size')).toBe(true);
  });
});
