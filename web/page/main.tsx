import '@fontsource/source-sans-3/latin-400.css';
import '@fontsource/source-sans-3/latin-600.css';
import '@fontsource/source-sans-3/greek-400.css';
import 'uplot/dist/uPlot.min.css';
import './style/paper.css';
import './style/bench.css';
import './style/tables.css';
import './style/plots.css';
import './style/forms.css';
import { render } from 'preact';
import { listenToBench } from './live/liveBench.ts';
import { Book } from './shell/Book.tsx';
import { keepChoice } from './shell/kept.ts';
import { unitSystem } from './words/unitSystem.ts';

const root = document.getElementById('book');
if (root !== null) {
  keepChoice('units', unitSystem, ['metric', 'US']);
  listenToBench();
  render(<Book />, root);
}
