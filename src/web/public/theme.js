// Before anything is drawn, so that a sheet chosen dark never flashes light.
try {
  const chosen = JSON.parse(localStorage.getItem("kilter.preferences") || "{}").theme;
  if (chosen === "light" || chosen === "dark") document.documentElement.dataset.theme = chosen;
} catch {
  // Storage may be shut off; the device's own choice stands.
}
