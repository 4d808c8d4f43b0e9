/** What the workbench in a browser has written down: it does so once a minute, and only while it has the focus. */
import type { Page } from 'playwright-core';
import { expect } from 'vitest';

/** Waits until all of these words stand in what is kept of the open editors. */
export async function kept(page: Page, words: readonly string[]): Promise<void> {
  const missing = async () => {
    const text = await page.evaluate(openEditors);
    return words.filter((word) => !text.includes(word));
  };
  await expect.poll(missing, { timeout: 120_000, interval: 1000 }).toEqual([]);
}

/** Runs in the page. */
async function openEditors(): Promise<string> {
  const done = <T>(request: IDBRequest<T>) =>
    new Promise<T>((resolve, reject) => {
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
  const texts: string[] = [];
  for (const { name = '' } of await indexedDB.databases()) {
    const database = await done(indexedDB.open(name));
    for (const store of [...Array(database.objectStoreNames.length).keys()].map(
      (i) => database.objectStoreNames[i] ?? '',
    ))
      texts.push(
        String(await done(database.transaction(store).objectStore(store).get('memento/workbench.parts.editor'))),
      );
    database.close();
  }
  return texts.join('\n');
}
