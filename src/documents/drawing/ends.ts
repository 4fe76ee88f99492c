/** How the end of a line is called. */
import type { End } from '../../model/boat';

export const endWords = ({ outside, part, port }: End): string =>
    outside !== undefined ? (outside === 'air' ? 'the air' : outside === 'deck' ? 'the deck' : 'the sea') : part === undefined ? 'nothing' : port === undefined ? part : `${part}.${port}`;
