/** The page of the view. Nothing in it comes from anywhere but this extension, and nothing leaves it. */
import { randomUUID } from 'node:crypto';
import * as vscode from 'vscode';

export function pageOf(webview: vscode.Webview, extension: vscode.Uri): string {
    const nonce = randomUUID();
    const address = (name: string): string => webview.asWebviewUri(vscode.Uri.joinPath(extension, 'out', name)).toString();
    const policy = `default-src 'none'; style-src ${webview.cspSource} 'nonce-${nonce}'; script-src 'nonce-${nonce}'; img-src blob:`;
    return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<title>Drawing of the boat</title>
<link rel="stylesheet" nonce="${nonce}" href="${address('live-view.css')}">
</head>
<body>
<div id="first">
<header>
<a class="skip" href="#words">To the drawing in words</a>
<form id="choose">
<select id="kind" aria-label="Kind of drawing"><option value="schematic">Schematic</option><option value="elevation">Elevation</option></select>
of <strong id="boat"></strong>
<label for="lineUp">in line-up</label> <select id="lineUp"></select><span id="lie"><label for="level">, filled to</label> <input id="level" type="number" min="0" max="100" placeholder="50" title="Of the gross volume of every tank; half, when nothing is said"> %
<label for="heel">and heeled</label> <input id="heel" type="number" min="0" max="90" title="She is drawn upright and on both tacks, when nothing is said"> <label for="side">deg to</label> <select id="side"><option value="1">starboard</option><option value="-1">port</option></select></span><label for="show">, showing</label>
<select id="show"></select><span id="steps">, <span id="step"></span>, <button type="button" id="back" aria-keyshortcuts="PageUp" title="The step before (Page Up)">back</button>, <button type="button" id="on" aria-keyshortcuts="PageDown" title="The next step (Page Down)">on</button></span>;
<span id="put" hidden><strong id="placed"></strong> stands where it was put, <button type="button" id="undo" aria-keyshortcuts="Delete" title="It goes where it would stand by itself (Delete)">put it back</button>;</span>
<label for="find">find</label> <input id="find" type="text" spellcheck="false" autocomplete="off"> <span id="found" role="status"></span>
<button type="button" id="svg">Save as SVG</button> <button type="button" id="png">Save as PNG</button>
</form>
<p id="told" role="status"></p>
</header>
<main>
<h1 class="unseen" id="heading">Drawing</h1>
<div id="sheet" tabindex="0" role="region" aria-labelledby="heading"><div id="paper"></div></div>
<p id="said" role="status"></p>
</main>
</div>
<section id="words" tabindex="-1" aria-labelledby="in-words"><h2 id="in-words">The drawing in words</h2><div id="list"></div></section>
<script nonce="${nonce}" src="${address('live-view.js')}"></script>
</body>
</html>`;
}
