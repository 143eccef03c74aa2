// The model that is fitted: its name, and that it is invented where it is.
export function model(view) {
  const found = (view.today?.sheets ?? []).find((sheet) => sheet.digest === view.visit.sheet) ?? { model: "", invented: false };
  return { ...found, model: found.model.replace(/ \(invented\)$/, "") };
}
