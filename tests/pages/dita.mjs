/** Topics of DITA 1.2, judged by xmllint against the document types that OASIS published. */
import { spawnSync } from 'node:child_process';

/** So many files are given to one process: each process reads the document types again, but a command line has an end. */
const AT_ONCE = 100;

/** What is wrong with the files: xmllint's own lines, none if all are valid. */
export function invalid(catalog, files) {
    const said = [];
    for (let i = 0; i < files.length; i += AT_ONCE) {
        const { status, stderr, error } = spawnSync('xmllint', ['--noout', '--nonet', '--valid', ...files.slice(i, i + AT_ONCE)], {
            env: { PATH: process.env.PATH, XML_CATALOG_FILES: catalog }, encoding: 'utf8', maxBuffer: 1 << 26,
        });
        if (error !== undefined) throw error;
        // Lines that begin with a file tell what is wrong; those between show where.
        const lines = stderr.split('\n').filter((line) => /^\S+:\d+: /.test(line));
        if (status !== 0 || stderr.trim() !== '') said.push(...(lines.length > 0 ? lines : [stderr.trim() || `xmllint ended with ${status}`]));
    }
    return said;
}
