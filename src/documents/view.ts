/** How the boat is looked at, in words, when surveys or refits give more than one way: a page about a refit must not pass for one of the boat. */
import type { Boat } from '../model/boat';

export function viewWords({ overlays, view }: Boat): string {
    if (overlays.length === 0) return '';
    return typeof view === 'object' ? `, after ${view.after}` : view === 'as is' ? ', the boat as she is' : `, the boat as ${view}`;
}
