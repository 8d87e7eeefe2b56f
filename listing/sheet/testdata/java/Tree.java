import java.io.File;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.*;
import org.apache.pdfbox.cos.*;
import org.apache.pdfbox.pdmodel.*;
import org.apache.pdfbox.pdmodel.documentinterchange.logicalstructure.*;
import org.apache.pdfbox.pdmodel.documentinterchange.markedcontent.PDMarkedContent;
import org.apache.pdfbox.text.PDFMarkedContentExtractor;
import org.apache.pdfbox.text.TextPosition;

/** Prints the structure trees of PDFs as PDFBox reads them: one line an element, by its depth, with its alternative text and the words that its marked content holds; a form feed ends each file. */
public class Tree {
    static Map<COSBase, Map<Integer, String>> words = new HashMap<>();
    static int links = 0;
    static PrintStream out = new PrintStream(System.out, true, StandardCharsets.UTF_8);

    public static void main(String[] args) throws Exception {
        for (String name : args) {
            words.clear();
            links = 0;
            tree(name);
            out.print('\f');
        }
    }

    static void tree(String name) throws Exception {
        try (PDDocument doc = PDDocument.load(new File(name))) {
            PDDocumentCatalog catalog = doc.getDocumentCatalog();
            out.println("marked " + catalog.getMarkInfo().isMarked() + " lang " + catalog.getLanguage());
            for (PDPage page : doc.getPages()) {
                PDFMarkedContentExtractor extractor = new PDFMarkedContentExtractor();
                extractor.processPage(page);
                Map<Integer, String> byId = new HashMap<>();
                for (PDMarkedContent m : extractor.getMarkedContents()) collect(m, byId);
                words.put(page.getCOSObject(), byId);
            }
            walk(catalog.getStructureTreeRoot(), null, 0);
            out.println("links " + links);
            outline(catalog.getDocumentOutline());
        }
    }

    static void outline(org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDOutlineNode node) {
        if (node != null) for (var item : node.children()) out.println("bookmark " + item.getTitle());
    }

    static void collect(PDMarkedContent m, Map<Integer, String> byId) {
        StringBuilder b = new StringBuilder();
        for (Object o : m.getContents()) {
            if (o instanceof TextPosition) b.append(((TextPosition) o).getUnicode());
            if (o instanceof PDMarkedContent) collect((PDMarkedContent) o, byId);
        }
        if (m.getMCID() >= 0) byId.put(m.getMCID(), b.toString());
    }

    static void walk(PDStructureNode node, PDPage page, int depth) {
        if (node instanceof PDStructureElement) {
            PDStructureElement e = (PDStructureElement) node;
            if (e.getPage() != null) page = e.getPage();
            StringBuilder b = new StringBuilder();
            for (Object kid : node.getKids()) {
                if (kid instanceof PDMarkedContentReference) {
                    PDMarkedContentReference r = (PDMarkedContentReference) kid;
                    b.append(words.getOrDefault(r.getPage().getCOSObject(), Map.of()).getOrDefault(r.getMCID(), "?"));
                }
                if (kid instanceof PDObjectReference) links++;
            }
            String alt = e.getAlternateDescription() == null ? "" : " alt=" + e.getAlternateDescription();
            out.println("  ".repeat(depth) + e.getStructureType() + alt + ": " + b);
        }
        for (Object kid : node.getKids()) if (kid instanceof PDStructureNode) walk((PDStructureNode) kid, page, depth + 1);
    }
}
