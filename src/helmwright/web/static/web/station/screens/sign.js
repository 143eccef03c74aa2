// Every check is right: what was found, stage by stage, the warning read aloud, two signatures, then the issue.
import { html, nothing } from "../../vendor/lit-html.js";
import * as say from "./words/sign.js";
import { differing, sizes } from "./build.js";
import { issued, refusedIssue, refusedSignatures } from "./issued.js";
import { model } from "./model.js";
import { choice, page } from "./page.js";
import { sentence } from "./sentences.js";
import { isSigned, said, signature, signatureOf } from "./signature.js";
import { sign, signing } from "./signing.js";
import { swapList } from "./swaps.js";
import { status } from "../marks.js";
import * as words from "./words/build.js";

/** What was signed for one helmet is not signed for another. */
const ANEW = { acknowledged: null, player: null, fitter: null };

export function screen(view, act) {
  if (signing(view, "issued").entry && !refusedIssue(view)) return issued(view, act);
  const { message, visit, player } = view, helmet = helmetOf(view);
  return page(view, act, {
    title: say.TITLE,
    second: html`${helmet ? `${helmet.code}, ` : nothing}${words.model(model(view).model, message.build.shell)}. ${say.SUMMARY((visit.try_ons ?? []).length)}`,
    body: html`${refused(view)}
      ${found(visit.found ?? [])}<p class="second small">${say.CAUTION}</p>
      <h2>${say.BUILD}</h2>${sizes(message.build)}
      ${visit.helmet ? nothing : byCode(view, act)}
      ${helmet ? against(view, act, helmet) : nothing}
      <section class="warning"><p><b>${say.READ_ALOUD}</b> ${sentence(view.today.warning?.text || say.NO_WARNING)}</p></section>
      ${showed(view, act)}
      ${player?.minor ? html`<div class="caution"><p>${say.MINOR} ${player.consent ? nothing : say.NO_CONSENT}</p></div>` : nothing}
      <div class="signatures">${signature(view, act, "player", player?.minor ? say.GUARDIAN(player.name) : say.PLAYER(player?.name ?? ""))}
        ${signature(view, act, "fitter", say.FITTER(view.person?.name ?? ""))}</div>
      ${purpose(view, act)}`,
    primary: {
      label: helmet ? html`${say.ISSUE} <span class="code">${helmet.code}</span>` : say.ISSUE, below: say.ISSUE_SECOND(player?.name ?? ""),
      waits: waitsFor(view, helmet), act: () => signAndIssue(view, act, helmet),
    },
  });
}

/** The helmet that was on the head: the visit's own, else the one that somebody points at. */
function helmetOf(view) {
  const own = view.visit.helmet;
  return own ?? signing(view).helmet ?? null;
}

function waitsFor(view, helmet) {
  const mine = signing(view);
  if (!helmet) return say.WAITS_HELMET(view.message.build.shell);
  if (isUnlike(view, helmet)) return say.WAITS_SHELL(view.message.build.shell);
  if (helmet.good === false) return say.WAITS_GOOD(helmet.code);
  if (otherPads(view, helmet).length && !mine.holds) return say.WAITS_PADS(helmet.code);
  if (say.SHOWED_ALL.some((_, n) => !mine[`showed ${n}`])) return say.WAITS_SHOWED;
  const { signature: least } = view.today;
  if (!least) return say.WAITS_LAPTOP;
  if (!isSigned(signatureOf(view, "player"), least)) return view.player?.minor ? say.WAITS_GUARDIAN : say.WAITS_PLAYER;
  return isSigned(signatureOf(view, "fitter"), least) ? "" : say.WAITS_FITTER;
}

/** Whether it cannot be the one that was on the head. */
const isUnlike = (view, helmet) => helmet.shell !== view.message.build.shell;

/** The zones in which the laptop has another pad in it than was accepted. */
function otherPads({ message }, { pads = {} }) {
  return differing({ pads: Object.fromEntries(words.ORDER.map((zone) => [zone, { pad: pads[zone] ?? message.build.pads[zone].pad }])) }, message.build);
}

/** What stands against issuing it: its shell, the laptop, other pads by the records until somebody has looked. */
function against(view, act, helmet) {
  const { build } = view.message, zones = otherPads(view, helmet), holds = Boolean(signing(view).holds);
  if (isUnlike(view, helmet)) return html`<div class="caution">${status("no", say.OTHER_SHELL(helmet.code, helmet.shell, build.shell))}</div>`;
  if (helmet.good === false) return html`<div class="caution">${status("no", sentence(helmet.why))}</div>`;
  return zones.length ? html`<section class="caution"><p><b>${say.OTHER_PADS(helmet.code)}</b> ${say.OTHER_PADS_DO}</p>
    ${swapList(zones.map((zone) => ({ zone, out: helmet.pads[zone], into: build.pads[zone].pad })))}
    <button type="button" class="answer" aria-pressed=${String(holds)} @click=${() => sign(view, act, { holds: !holds })}>${say.HOLDS}</button></section>` : nothing;
}

/** Where no helmet was spoken for: the code on the label of the one that is on the head. */
function byCode(view, act) {
  const mine = signing(view);
  const find = async () => {
    const code = document.querySelector(".fit .code-field").value.trim().toUpperCase();
    const found = code ? await act.find(code, view.player?.id).catch(() => null) : null;
    const another = found?.helmet?.id !== mine.helmet?.id ? { holds: false, ...(mine.acknowledged ? ANEW : {}) } : {};
    await sign(view, act, { helmet: found?.helmet ?? null, missed: found ? "" : code, ...another });
  };
  return html`${mine.helmet ? nothing : html`<p>${status("check", say.UNNAMED(view.message.build.shell))}</p>`}<div class="pair"><label class="field"><span>${say.CODE}</span><input class="code-field" type="text" autocomplete="off" .value=${mine.helmet?.code ?? mine.missed ?? ""}></label>
    <button type="button" @click=${find}>${say.FIND}</button></div>
    ${mine.missed ? html`<p role="status">${say.NO_SUCH(mine.missed)}</p>` : nothing}`;
}

/** Stage by stage as the visit went: how it came out, and what was otherwise on the way. Every check is behind one tap. */
function found(stages) {
  if (!stages.length) return nothing;
  return html`<section><h2>${say.FOUND}</h2><dl class="found">${stages.map(({ stage, told, on_the_way: way }) => html`<div><dt>${stage}</dt><dd>${told}${way.map((each) => html`<br>${each}`)}</dd></div>`)}</dl>
    <details class="more"><summary>${say.EVERY}</summary><div>${stages.filter(({ checks }) => checks.length).map(({ stage, checks }) => html`<p><b>${stage}.</b> ${checks.map(({ title, words }) => `${title}: ${words}`).join("; ")}.</p>`)}</div></details></section>`;
}

function showed(view, act) {
  const mine = signing(view);
  return html`<div class="pair tall" role="group" aria-label=${say.SHOWED}>${say.SHOWED_ALL.map((text, n) => html`<button type="button" class="answer" aria-pressed=${String(Boolean(mine[`showed ${n}`]))}
    @click=${() => sign(view, act, { [`showed ${n}`]: !mine[`showed ${n}`] })}>${text}</button>`)}</div>`;
}

function purpose(view, act) {
  const now = signing(view).purpose ?? say.PURPOSES[0][0];
  return html`<section><h2>${say.PURPOSE}</h2><div class="triple" role="radiogroup" aria-label=${say.PURPOSE}>${say.PURPOSES.map(([value, text]) => choice(
    value === now, () => sign(view, act, { purpose: value }), text, "short"))}</div></section>`;
}

/** The issue that the laptop set aside, and what to do. */
function refused(view) {
  const fate = refusedIssue(view);
  return fate ? html`<div class="caution" role="alert"><b>${say.REFUSED}</b><p>${sentence(fate.note || fate.what || "")}</p><p>${say.REFUSED_DO}</p></div>` : nothing;
}

async function signAndIssue(view, act, helmet) {
  const { visit, count: of } = view.visit, player = view.player.id, mine = signing(view), warning = view.today.warning ?? {};
  const unsigned = refusedSignatures(view);
  for (const old of [unsigned, refusedIssue(view)]) if (old) await act.seen(old.id);
  if (unsigned || mine.acknowledged !== helmet.id) {
    await act.say("acknowledged", {
      player, helmet: helmet.id, visit, text_version: warning.version ?? "", language: warning.language ?? "en-US",
      signed_by: view.player.minor ? "guardian" : "player", showed: say.SHOWED_ALL,
      player_signature: said(signatureOf(view, "player")), fitter_signature: said(signatureOf(view, "fitter")),
    }, { remember: { sign: { ...mine, acknowledged: helmet.id, of } } });
  }
  const issue = { helmet: helmet.id, player, visit, purpose: mine.purpose ?? say.PURPOSES[0][0], ...(otherPads(view, helmet).length ? { holds_build: true } : {}) };
  await act.say("helmet issued", issue, { remember: { issued: { entry: true, code: helmet.code, of } } });
}
