const MM_PER_PX = 25.4 / 96;
/** A picture is stretched to whole pixels of the page: cut to them (a fifth of a millimetre of its empty edge), it keeps its scale. */
const wholePx = (mm: number) => Math.floor(mm / MM_PER_PX);

/** Prints sheets (SVG with their letters in it), one a page, each at its own size in millimetres: 100 mm on paper are 100 mm. */
export async function printSheets(files: readonly { bytes: Uint8Array | string }[]): Promise<void> {
  document.querySelector(".print-sheets")?.remove();
  const holder = document.createElement("div");
  holder.className = "print-sheets";
  const urls: string[] = [];
  const rules: string[] = [];
  for (const [i, { bytes }] of files.entries()) {
    const text = typeof bytes === "string" ? bytes : new TextDecoder().decode(bytes);
    const size = /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="[^"]*"/.exec(text);
    if (!size) continue;
    const [head, width, height] = size as unknown as [string, string, string];
    const [wide, tall] = [wholePx(Number(width)), wholePx(Number(height))];
    const exact = text.replace(
      head,
      `width="${wide}" height="${tall}" viewBox="0 0 ${wide * MM_PER_PX} ${tall * MM_PER_PX}"`,
    );
    const image = document.createElement("img");
    image.src = URL.createObjectURL(new Blob([exact], { type: "image/svg+xml" }));
    urls.push(image.src);
    image.alt = "";
    image.style.width = `${wide}px`;
    image.style.height = `${tall}px`;
    // Papers of several sizes in one run: each its own page.
    image.style.setProperty("page", `sheet${i}`);
    rules.push(`@page sheet${i} { size: ${width}mm ${height}mm; margin: 0; }`);
    holder.append(image);
  }
  const pages = new CSSStyleSheet();
  pages.replaceSync(rules.join("\n"));
  document.body.append(holder);
  await Promise.all([...holder.querySelectorAll("img")].map((image) => image.decode()));
  const before = document.adoptedStyleSheets;
  document.adoptedStyleSheets = [...before, pages];
  document.documentElement.classList.add("printing");
  const done = () => {
    document.documentElement.classList.remove("printing");
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((sheet) => sheet !== pages);
    holder.remove();
    for (const url of urls) URL.revokeObjectURL(url);
  };
  window.addEventListener("afterprint", done, { once: true });
  window.print();
}
