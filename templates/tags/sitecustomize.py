"""Read by the Python that runs weasyprint, before anything else: pdf.c puts this folder into PYTHONPATH.

WeasyPrint 57 tags no drawing, and for the tags of each page it goes through the whole document. Here a
drawing with a name becomes a figure with its alternate text, and a page looks up its own elements only. Where
WeasyPrint is not made so inside, it is left as it is: the page looks the same, a drawing then has no tag.
"""
import gc


def words_of(svg):
    """What a drawing says to who does not see it: its label, or the elements that name and describe it."""
    if svg.get("aria-label"):
        return svg.get("aria-label")
    named = [e for i in (svg.get("aria-labelledby") or "").split() for e in svg.iter() if e.get("id") == i]
    return " ".join(" ".join("".join(e.itertext()).split()) for e in named)


def is_figure(box):
    element = box.element
    return element is not None and element.tag.endswith("svg") and bool(words_of(element))


def mark_figures(draw):
    plain = draw.draw_replacedbox

    def marked(stream, box):
        if not is_figure(box):
            return plain(stream, box)
        stream.begin_marked_content(box, mcid=True, tag="Figure")
        plain(stream, box)
        stream.end_marked_content()

    draw.draw_replacedbox = marked


def elements_of_each_page(root, page_streams):
    """For each page the elements that are on it, and those around them, each with its parent."""
    parents = {child: parent for parent in root.iter() for child in parent}
    for stream in page_streams:
        found = {root: {"parent": None}}
        for _, box in stream.marked:
            element = box.element
            while element is not None and element not in found:
                found[element] = {"parent": parents.get(element)}
                element = parents.get(element)
        yield found


def figures_on(page_streams):
    """The drawings in the order in which they are tagged: page by page, each once."""
    for stream in page_streams:
        on_page = {box.element: None for tag, box in stream.marked if tag == "Figure"}
        yield from on_page


def with_figures(plain, pydyf):
    def tagged(pdf, metadata, document, page_streams):
        pages = elements_of_each_page(document._html.etree_element, page_streams)
        document.build_element_structure = lambda structure: structure.update(next(pages))
        plain(pdf, metadata, document, page_streams)
        figures = [o for o in pdf.objects if isinstance(o, dict) and o.get("S") == "/Figure"]
        for figure, svg in zip(figures, figures_on(page_streams)):
            figure["Alt"] = pydyf.String(words_of(svg))

    return tagged


def improve():
    import pydyf
    from weasyprint import draw, pdf
    from weasyprint.document import Document

    plain, options = pdf.VARIANTS["pdf/ua-1"]
    if hasattr(Document, "build_element_structure"):
        mark_figures(draw)
        pdf.VARIANTS["pdf/ua-1"] = with_figures(plain, pydyf), options


# A layout makes millions of objects and lets go of few: looking for those at every 700th is time lost.
gc.set_threshold(200_000, 20, 1000)
try:
    improve()
except (ImportError, AttributeError, KeyError, TypeError, ValueError):
    pass
