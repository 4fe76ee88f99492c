// @ts-nocheck
// TEMPORARY: until the schematic is there.
import { inked, svg, thing, words } from '../documents/drawing/svg';
export const standIn = async (boat, sheet) => {
    let body = ''; const said = []; let y = 40; let width = 400;
    boat.courses.forEach((course) => {
        let x = 40;
        body += words(course.id, { x, y: y - 10 });
        said.push({ text: course.id, depth: 0 });
        const line = [course.from.part, ...course.parts, course.to.part].filter((id) => id);
        for (const id of line) {
            if (said.some(({ about }) => about === id)) continue;
            const shut = boat.lineUps.find(({ id }) => id === sheet.lineUp)?.settings.some(({ part, position }) => part === id && position === 'shut');
            body += thing(id, 'part', id, `<rect ${inked(shut ? 'solid' : 'outline')} x="${x}" y="${y}" width="60" height="30"/>${words(id, { x: x + 4, y: y + 44 })}`);
            said.push({ text: `${id} after the one before`, about: id, depth: 1 });
            body += `<path ${inked(id === 'F1' ? 'accent' : 'line')} d="M${x + 60} ${y + 15}h30"/>`;
            x += 90;
        }
        width = Math.max(width, x + 40);
        y += 100;
    });
    return { svg: svg({ width, height: y + 20, title: `Schematic of ${boat.name}`, body }), words: said };
};
