/** The page of a picture and what it keeps: nothing from elsewhere, and whatever was kept is read. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { newNonce, pageHtml } from '../../client/picture/html.ts';
import { newView, readView } from '../../client/picture/messages.ts';

const parts = {
  script: 'https://view.example/dist/picture.js',
  style: 'https://view.example/dist/picture.css',
  source: 'https://view.example',
  nonce: 'abc123',
  title: 'Picture of "van" <b>.amps',
  uri: 'file:///van/"><script>alert(1)</script>.amps',
};

describe('the page of a picture', () => {
  it('may run its own script, take its own style, and nothing else', () => {
    const html = pageHtml(parts);
    const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(html)?.[1];
    expect(policy).toBe("default-src 'none'; style-src https://view.example; script-src 'nonce-abc123'");
    expect(html).not.toMatch(/unsafe-|\bon\w+=|style="|<style/);
    expect([...html.matchAll(/<script\b/g)]).toHaveLength(1);
  });

  it('keeps names as text', () => {
    const html = pageHtml(parts);
    expect(html).toContain('data-uri="file:///van/&quot;&gt;&lt;script&gt;alert(1)&lt;/script&gt;.amps"');
    expect(html).toContain('<title>Picture of &quot;van&quot; &lt;b&gt;.amps</title>');
  });

  it('has a nonce of its own each time', () => {
    const nonces = new Set(Array.from({ length: 100 }, newNonce));
    expect(nonces.size).toBe(100);
    for (const nonce of nonces) expect(nonce).toMatch(/^[0-9a-f]{48}$/);
  });
});

describe('what a page keeps', () => {
  it('comes back as it was', () => {
    const view = {
      ...newView('file:///van/a.amps'),
      caseName: 'night',
      shade: 'drop' as const,
      load: 'LAMP',
      follow: false,
      places: true,
      chosen: 'part:Q1',
      window: { x: -3, y: 4.5, scale: 2 },
    };
    expect(readView(JSON.parse(JSON.stringify(view)), '')).toEqual(view);
  });

  it('is a new one where it cannot be read', () => {
    const fresh = newView('file:///van/a.amps');
    for (const kept of [undefined, null, 3, 'x', [], { shade: 'rainbow', window: { x: 'left' }, follow: 1 }])
      expect(readView(kept, 'file:///van/a.amps')).toEqual(fresh);
    fc.assert(
      fc.property(fc.anything(), (kept) => {
        const { window, shade } = readView(kept, 'u');
        expect(['none', 'capacity', 'drop']).toContain(shade);
        expect(window === undefined || window.scale > 0).toBe(true);
      }),
    );
  });
});
