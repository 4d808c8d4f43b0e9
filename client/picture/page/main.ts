/** Starts the page: the style of the drawing, what was kept, and what the extension says. */
import { styleSheet } from '../../../server/reports/picture/draw-svg.ts';
import { shadeStyle } from '../../../server/reports/picture/shades.ts';
import { readView, type ToPage } from '../messages.ts';
import { App } from './app.ts';
import { answered, host } from './ask.ts';
import { followTheme } from './theme.ts';
import './picture.css';

const look = { colours: 'variables' } as const;
// Set by script, since the page's policy lets no style stand in it.
const sheet = new CSSStyleSheet();
sheet.replaceSync(`${styleSheet(look)}\n${shadeStyle(look)}`);
document.adoptedStyleSheets = [sheet];
followTheme();

const view = readView(host.getState(), document.body.dataset.uri ?? '');
host.setState(view);
const app = new App(view);

window.addEventListener('message', ({ data }: MessageEvent<ToPage>) => {
  switch (data.say) {
    case 'whole':
      return app.begin(data.picture, data.file, data.follows);
    case 'change':
      return app.change(data.change);
    case 'answer':
      return answered(data.id, data.answer);
    case 'show':
      return app.showAtCursor(data.elements);
    case 'case':
      return app.chooseCase(data.name);
    case 'again':
      return app.reload();
    case 'trouble':
      return app.trouble(data.message);
  }
});
