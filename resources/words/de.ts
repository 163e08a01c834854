<?xml version="1.0" encoding="utf-8"?>
<!DOCTYPE TS>
<TS version="2.1" language="de" sourcelanguage="en">
    <context>
        <name>resources/shop</name>
        <message>
            <source>One nozzle, medium</source>
            <translation>Eine Düse, mittel</translation>
        </message>
        <message>
            <source>from memory, check</source>
            <translation>aus dem Gedächtnis, prüfen</translation>
        </message>
        <message>
            <source>an example, put in what an hour costs you</source>
            <translation>ein Beispiel, tragen Sie ein, was Sie eine Stunde kostet</translation>
        </message>
        <message>
            <source>from memory, check: by hand</source>
            <translation>aus dem Gedächtnis, prüfen: von Hand</translation>
        </message>
        <message>
            <source>nothing is purged</source>
            <translation>nichts wird gespült</translation>
        </message>
        <message>
            <source>nothing is primed</source>
            <translation>nichts wird angespritzt</translation>
        </message>
        <message>
            <source>One material only: a support of another material needs a machine that changes.</source>
            <translation>Nur ein Material: Für Stützen aus einem anderen braucht es eine Maschine, die wechselt.</translation>
        </message>
        <message>
            <source>nozzle</source>
            <translation>Düse</translation>
        </message>
        <message>
            <source>Shared nozzle, four materials</source>
            <translation>Gemeinsame Düse, vier Materialien</translation>
        </message>
        <message>
            <source>common practice, no source: separate nozzles some seconds, a shared nozzle tens of seconds</source>
            <translation>übliche Praxis, ohne Quelle: getrennte Düsen einige Sekunden, eine gemeinsame einige zehn Sekunden</translation>
        </message>
        <message>
            <source>All materials go through one nozzle; what is purged becomes a body beside the part.</source>
            <translation>Alle Materialien gehen durch eine Düse; aus dem Gespülten wird ein Körper neben dem Teil.</translation>
        </message>
        <message>
            <source>front left corner</source>
            <translation>vordere linke Ecke</translation>
        </message>
        <message>
            <source>Two nozzles, large</source>
            <translation>Zwei Düsen, groß</translation>
        </message>
        <message>
            <source>left</source>
            <translation>links</translation>
        </message>
        <message>
            <source>right</source>
            <translation>rechts</translation>
        </message>
        <message>
            <source>Two nozzles, side by side</source>
            <translation>Zwei Düsen, nebeneinander</translation>
        </message>
        <message>
            <source>Two nozzles on one carriage; each misses a strip at the far side.</source>
            <translation>Zwei Düsen an einem Schlitten; jeder fehlt ein Streifen auf der fernen Seite.</translation>
        </message>
        <message>
            <source>PLA</source>
            <translation>PLA</translation>
        </message>
        <message>
            <source>READ data sheets, middle of 1.22 to 1.26</source>
            <translation>GELESEN Datenblätter, Mitte von 1,22 bis 1,26</translation>
        </message>
        <message>
            <source>an example, put in what you pay</source>
            <translation>ein Beispiel, tragen Sie ein, was Sie zahlen</translation>
        </message>
        <message>
            <source>READ one published guide: clean to about 5 to 10 mm, below 20 mm; the figure is common practice, no source</source>
            <translation>GELESEN ein veröffentlichter Leitfaden: sauber bis etwa 5 bis 10 mm, unter 20 mm; die Zahl ist übliche Praxis, ohne Quelle</translation>
        </message>
        <message>
            <source>READ Stephens et al. 2013; Azimi et al. 2016</source>
            <translation>GELESEN Stephens et al. 2013; Azimi et al. 2016</translation>
        </message>
        <message>
            <source>ultrafine particles while printing</source>
            <translation>ultrafeine Partikel beim Drucken</translation>
        </message>
        <message>
            <source>ABS</source>
            <translation>ABS</translation>
        </message>
        <message>
            <source>from memory, check; middle of 1.03 to 1.07</source>
            <translation>aus dem Gedächtnis, prüfen; Mitte von 1,03 bis 1,07</translation>
        </message>
        <message>
            <source>80 °C, 4 h</source>
            <translation>80 °C, 4 h</translation>
        </message>
        <message>
            <source>ultrafine particles and styrene while printing</source>
            <translation>ultrafeine Partikel und Styrol beim Drucken</translation>
        </message>
        <message>
            <source>ASA</source>
            <translation>ASA</translation>
        </message>
        <message>
            <source>BVOH</source>
            <translation>BVOH</translation>
        </message>
        <message>
            <source>READ/MEM supplier notes on moisture, oozing and charring</source>
            <translation>GELESEN/aus dem Gedächtnis: Angaben von Lieferanten zu Feuchte, Nachlaufen und Verkohlen</translation>
        </message>
        <message>
            <source>60 °C, 6 h, kept in a dry box</source>
            <translation>60 °C, 6 h, in der Trockenbox gehalten</translation>
        </message>
        <message>
            <source>HIPS</source>
            <translation>HIPS</translation>
        </message>
        <message>
            <source>from memory, check; middle of 1.03 to 1.06</source>
            <translation>aus dem Gedächtnis, prüfen; Mitte von 1,03 bis 1,06</translation>
        </message>
        <message>
            <source>65 °C, 4 h</source>
            <translation>65 °C, 4 h</translation>
        </message>
        <message>
            <source>PA12</source>
            <translation>PA12</translation>
        </message>
        <message>
            <source>80 °C, 10 h</source>
            <translation>80 °C, 10 h</translation>
        </message>
        <message>
            <source>PC</source>
            <translation>PC</translation>
        </message>
        <message>
            <source>90 °C, 6 h</source>
            <translation>90 °C, 6 h</translation>
        </message>
        <message>
            <source>PETG</source>
            <translation>PETG</translation>
        </message>
        <message>
            <source>READ data sheets, middle of 1.25 to 1.29</source>
            <translation>GELESEN Datenblätter, Mitte von 1,25 bis 1,29</translation>
        </message>
        <message>
            <source>65 °C, 6 h</source>
            <translation>65 °C, 6 h</translation>
        </message>
        <message>
            <source>PVA</source>
            <translation>PVA</translation>
        </message>
        <message>
            <source>from memory, check; middle of 1.19 to 1.31</source>
            <translation>aus dem Gedächtnis, prüfen; Mitte von 1,19 bis 1,31</translation>
        </message>
        <message>
            <source>45 °C, 10 h, kept in a dry box</source>
            <translation>45 °C, 10 h, in der Trockenbox gehalten</translation>
        </message>
        <message>
            <source>TPU 95A</source>
            <translation>TPU 95A</translation>
        </message>
        <message>
            <source>from memory, check; middle of 1.19 to 1.24</source>
            <translation>aus dem Gedächtnis, prüfen; Mitte von 1,19 bis 1,24</translation>
        </message>
        <message>
            <source>65 °C, 8 h</source>
            <translation>65 °C, 8 h</translation>
        </message>
        <message>
            <source>PLA alone</source>
            <translation>PLA allein</translation>
        </message>
        <message>
            <source>common practice, no source; a first guess that trials correct</source>
            <translation>übliche Praxis, ohne Quelle; eine erste Schätzung, die Versuche berichtigen</translation>
        </message>
        <message>
            <source>READ published guides: breaking supports of the same material off leaves scars</source>
            <translation>GELESEN veröffentlichte Leitfäden: Stützen aus demselben Material hinterlassen beim Abbrechen Narben</translation>
        </message>
        <message>
            <source>holds by itself; a gap keeps it apart</source>
            <translation>hält von selbst; ein Spalt trennt</translation>
        </message>
        <message>
            <source>rough, with scars where it broke off</source>
            <translation>rau, mit Narben, wo es abbrach</translation>
        </message>
        <message>
            <source>ABS alone</source>
            <translation>ABS allein</translation>
        </message>
        <message>
            <source>ABS with HIPS</source>
            <translation>ABS mit HIPS</translation>
        </message>
        <message>
            <source>READ safety data sheet of limonene, CAS 5989-27-5</source>
            <translation>GELESEN Sicherheitsdatenblatt von Limonen, CAS 5989-27-5</translation>
        </message>
        <message>
            <source>holds well, dissolves in limonene</source>
            <translation>hält gut, löst sich in Limonen</translation>
        </message>
        <message>
            <source>close to the upper side of a layer: full roads laid on a closed floor, no gap</source>
            <translation>fast wie die Oberseite einer Schicht: volle Bahnen auf geschlossenem Boden, ohne Spalt</translation>
        </message>
        <message>
            <source>ASA alone</source>
            <translation>ASA allein</translation>
        </message>
        <message>
            <source>ASA with HIPS</source>
            <translation>ASA mit HIPS</translation>
        </message>
        <message>
            <source>PA12 alone</source>
            <translation>PA12 allein</translation>
        </message>
        <message>
            <source>PC alone</source>
            <translation>PC allein</translation>
        </message>
        <message>
            <source>PETG alone</source>
            <translation>PETG allein</translation>
        </message>
        <message>
            <source>PETG with BVOH</source>
            <translation>PETG mit BVOH</translation>
        </message>
        <message>
            <source>READ/MEM supplier notes: parts in water; takes up moisture, oozes when idle, chars if held hot</source>
            <translation>GELESEN/aus dem Gedächtnis, Angaben von Lieferanten: löst sich in Wasser; nimmt Feuchte auf, läuft im Stillstand nach, verkohlt heiß gehalten</translation>
        </message>
        <message>
            <source>some grades hold, others do not: test first</source>
            <translation>manche Sorten halten, andere nicht: erst prüfen</translation>
        </message>
        <message>
            <source>PETG, PLA contact layers</source>
            <translation>PETG, Kontaktschichten aus PLA</translation>
        </message>
        <message>
            <source>usually weak (from memory, check); READ Zatloukal et al. 2025, Materials 18:3846: can bond strongly</source>
            <translation>meist schwach (aus dem Gedächtnis, prüfen); GELESEN Zatloukal et al. 2025, Materials 18:3846: kann fest haften</translation>
        </message>
        <message>
            <source>usually weak, but can bond strongly: test first, in both stacking orders</source>
            <translation>meist schwach, kann aber fest haften: erst prüfen, in beiden Reihenfolgen</translation>
        </message>
        <message>
            <source>PETG with PLA</source>
            <translation>PETG mit PLA</translation>
        </message>
        <message>
            <source>PETG with PVA</source>
            <translation>PETG mit PVA</translation>
        </message>
        <message>
            <source>PLA with BVOH</source>
            <translation>PLA mit BVOH</translation>
        </message>
        <message>
            <source>holds while printed, dissolves in water</source>
            <translation>hält beim Drucken, löst sich in Wasser</translation>
        </message>
        <message>
            <source>PLA, PETG contact layers</source>
            <translation>PLA, Kontaktschichten aus PETG</translation>
        </message>
        <message>
            <source>PLA with PETG</source>
            <translation>PLA mit PETG</translation>
        </message>
        <message>
            <source>PLA, PVA contact layers</source>
            <translation>PLA, Kontaktschichten aus PVA</translation>
        </message>
        <message>
            <source>holds while printed; the contact layers dissolve where water reaches them</source>
            <translation>hält beim Drucken; die Kontaktschichten lösen sich, wo Wasser hinkommt</translation>
        </message>
        <message>
            <source>PLA with PVA</source>
            <translation>PLA mit PVA</translation>
        </message>
        <message>
            <source>TPU 95A alone</source>
            <translation>TPU 95A allein</translation>
        </message>
        <message>
            <source>TPU 95A with BVOH</source>
            <translation>TPU 95A mit BVOH</translation>
        </message>
        <message>
            <source>TPU 95A, PETG contact layers</source>
            <translation>TPU 95A, Kontaktschichten aus PETG</translation>
        </message>
        <message>
            <source>common practice, no source; READ: measurable shear bond that depends on order and pattern</source>
            <translation>übliche Praxis, ohne Quelle; GELESEN: messbare Scherhaftung, die von Reihenfolge und Muster abhängt</translation>
        </message>
        <message>
            <source>peels off, the strength depends on stacking order and pattern: test first</source>
            <translation>lässt sich abziehen, die Kraft hängt von Reihenfolge und Muster ab: erst prüfen</translation>
        </message>
        <message>
            <source>TPU 95A with PETG</source>
            <translation>TPU 95A mit PETG</translation>
        </message>
        <message>
            <source>TPU 95A, PLA contact layers</source>
            <translation>TPU 95A, Kontaktschichten aus PLA</translation>
        </message>
        <message>
            <source>TPU 95A with PLA</source>
            <translation>TPU 95A mit PLA</translation>
        </message>
        <message>
            <source>TPU 95A with PVA</source>
            <translation>TPU 95A mit PVA</translation>
        </message>
        <message>
            <source>Usual</source>
            <translation>Üblich</translation>
        </message>
        <message>
            <source>Usual, fixed order of materials</source>
            <translation>Üblich, feste Reihenfolge der Materialien</translation>
        </message>
        <message>
            <source>Slow and fine</source>
            <translation>Langsam und fein</translation>
        </message>
        <message>
            <source>Sturdy</source>
            <translation>Stabil</translation>
        </message>
    </context>
    <context>
        <name>viewer/document/compose_sheet.py</name>
        <message>
            <source>The first column is the way it will be printed; better and worse are said beside it. Alike means: within what can be measured.</source>
            <translation>Die erste Spalte zeigt die gewählte Lage; daneben steht, was besser oder schlechter wäre. Gleich heißt: im Rahmen dessen, was sich messen lässt.</translation>
        </message>
        <message>
            <source>{x:.1f} × {y:.1f} × {z:.1f} mm</source>
            <translation>{x:.1f} × {y:.1f} × {z:.1f} mm</translation>
        </message>
        <message>
            <source>Time, material and price</source>
            <translation>Zeit, Material und Preis</translation>
        </message>
        <message>
            <source>The faces that show: class A reddish purple, class B blue</source>
            <translation>Die Flächen, die man sieht: Klasse A rötlich-violett, Klasse B blau</translation>
        </message>
        <message>
            <source>The part as it lies in the machine, the faces that show in colour, from side {n}.</source>
            <translation>Das Teil, wie es in der Maschine liegt, die sichtbaren Flächen farbig, von Seite {n}.</translation>
        </message>
        <message>
            <source>How the print comes out, drawn</source>
            <translation>So kommt der Druck heraus (gezeichnet)</translation>
        </message>
        <message>
            <source>Drawing of the printed part with its layers and marks of supports, from side {n}.</source>
            <translation>Zeichnung des gedruckten Teils mit seinen Schichten und Spuren der Stützen, von Seite {n}.</translation>
        </message>
        <message>
            <source>With its supports: stripes where they touch, dots where they stand</source>
            <translation>Mit Stützen: Streifen, wo sie anliegen, Punkte, wo sie stehen</translation>
        </message>
        <message>
            <source>The part with the supports that are printed along, from side {n}.</source>
            <translation>Das Teil mit den Stützen, die mitgedruckt werden, von Seite {n}.</translation>
        </message>
        <message>
            <source>Other ways to lay it</source>
            <translation>Andere Lagen</translation>
        </message>
        <message>
            <source>The part measures {size} as drawn. Please check this: a file does not always say in which unit it was drawn.</source>
            <translation>Das Teil misst, wie gezeichnet, {size}. Bitte prüfen Sie das: Nicht jede Datei sagt, in welcher Einheit sie gezeichnet wurde.</translation>
        </message>
        <message>
            <source>Your file</source>
            <translation>Ihre Datei</translation>
        </message>
        <message>
            <source>Printed in {model}, with supports of the same.</source>
            <translation>Gedruckt in {model}, die Stützen aus demselben Material.</translation>
        </message>
        <message>
            <source>Printed in {model}; supports of {support}.</source>
            <translation>Gedruckt in {model}; Stützen aus {support}.</translation>
        </message>
        <message>
            <source>Printing time: {time}.</source>
            <translation>Druckzeit: {time}.</translation>
        </message>
        <message>
            <source>Material: {mass}, of which {part} are the part itself; supports fill {volume}.</source>
            <translation>Material: {mass}, davon {part} für das Teil selbst; die Stützen füllen {volume}.</translation>
        </message>
        <message>
            <source>Price of material and machine time: {price}.</source>
            <translation>Preis für Material und Maschinenzeit: {price}.</translation>
        </message>
        <message>
            <source>These are estimates: nine of ten prints should lie between the lower and upper value.</source>
            <translation>Das sind Schätzungen: Neun von zehn Drucken sollten zwischen dem unteren und dem oberen Wert liegen.</translation>
        </message>
        <message>
            <source>Please note</source>
            <translation>Bitte beachten</translation>
        </message>
        <message>
            <source>“{part}” ({size}) is printed as it lies in these pictures, {copies}.</source>
            <translation>„{part}“ ({size}) wird {copies} so gedruckt, wie es auf diesen Bildern liegt.</translation>
        </message>
        <message>
            <source>The faces marked as class A and class B are the ones that have to look good.</source>
            <translation>Die als Klasse A und Klasse B markierten Flächen sind die, die gut aussehen sollen.</translation>
        </message>
        <message>
            <source>Marks of supports and steps of layers, as far as they are described here, belong to the process and are no defect.</source>
            <translation>Spuren von Stützen und Stufen der Schichten gehören, soweit sie hier beschrieben sind, zum Verfahren und sind kein Mangel.</translation>
        </message>
        <message>
            <source>The pictures are drawn; colour and gloss of the print may differ.</source>
            <translation>Die Bilder sind gezeichnet; Farbe und Glanz des Drucks können abweichen.</translation>
        </message>
        <message>
            <source>Time, mass and price may lie anywhere within the ranges given.</source>
            <translation>Zeit, Masse und Preis können überall in den angegebenen Bereichen liegen.</translation>
        </message>
        <message>
            <source>What you agree to</source>
            <translation>Womit Sie einverstanden sind</translation>
        </message>
        <message>
            <source>Name</source>
            <translation>Name</translation>
        </message>
        <message>
            <source>Date</source>
            <translation>Datum</translation>
        </message>
        <message>
            <source>Signature</source>
            <translation>Unterschrift</translation>
        </message>
        <message>
            <source>Client sheet</source>
            <translation>Kundenblatt</translation>
        </message>
        <message>
            <source>A machine prints your part layer by layer, from below. Which way it lies decides which faces come out clean: what hangs over needs supports, which are printed along and taken off afterwards, and leave marks. This sheet shows the way it will lie, and what of that will be seen.</source>
            <translation>Eine Maschine druckt Ihr Teil Schicht für Schicht von unten nach oben. Wie es dabei liegt, entscheidet, welche Flächen sauber werden: Was überhängt, braucht Stützen; sie werden mitgedruckt, danach abgenommen und hinterlassen Spuren. Dieses Blatt zeigt, wie das Teil liegen wird und was man davon später sieht.</translation>
        </message>
        <message>
            <source>Class A is always in view, class B is seen in use, the rest is hidden. “Touch” is where a support holds the part up from below; “landing” is where a support stands, on the machine's platform or on the part itself.</source>
            <translation>Klasse A ist immer im Blick, Klasse B ist im Gebrauch zu sehen, der Rest bleibt verdeckt. „Kontakt“ heißt, dass dort eine Stütze das Teil von unten hält; „Stand“, dass dort eine Stütze steht, auf der Bauplattform oder auf dem Teil selbst.</translation>
        </message>
        <message>
            <source>Our check of the file: {verdict}.</source>
            <translation>Unsere Prüfung der Datei: {verdict}.</translation>
        </message>
        <message>
            <source>The file as received had {faults}; we mended it.</source>
            <translation>Die Datei hatte, wie erhalten, {faults}; wir haben sie ausgebessert.</translation>
        </message>
        <message>
            <source>We mended the file as received.</source>
            <translation>Wir haben die erhaltene Datei ausgebessert.</translation>
        </message>
        <message>
            <source>All of this is for {copies} pieces.</source>
            <translation>All das gilt für {copies} Stück.</translation>
        </message>
        <message>
            <source>The other ways to lay it were shown, and this one was chosen.</source>
            <translation>Die anderen Lagen wurden gezeigt, und diese wurde gewählt.</translation>
        </message>
        <message>
            <source>No place of the mended surface lies farther than {most} from the one received.</source>
            <translation>Keine Stelle der ausgebesserten Oberfläche liegt weiter als {most} von der erhaltenen.</translation>
        </message>
        <message>
            <source>For the client</source>
            <translation>Für den Auftraggeber</translation>
        </message>
        <message>
            <source>For the maker</source>
            <translation>Für den Hersteller</translation>
        </message>
        <message>
            <source>What you will see on the finished part</source>
            <translation>Was Sie am fertigen Teil sehen werden</translation>
        </message>
        <message>
            <source>once</source>
            <translation>einmal</translation>
        </message>
        <message>
            <source>{copies} times</source>
            <translation>{copies}-mal</translation>
        </message>
    </context>
    <context>
        <name>viewer/document/cutting.py</name>
        <message>
            <source>Quarter</source>
            <translation>Viertel</translation>
        </message>
        <message>
            <source>Slab</source>
            <translation>Scheibe</translation>
        </message>
        <message>
            <source>Cut-out</source>
            <translation>Ausschnitt</translation>
        </message>
        <message>
            <source>Half</source>
            <translation>Hälfte</translation>
        </message>
        <message>
            <source>Look for a place to split first.</source>
            <translation>Suchen Sie zuerst eine Stelle zum Teilen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/document/demo_job.py</name>
        <message>
            <source>Trowel grip</source>
            <translation>Kellengriff</translation>
        </message>
        <message>
            <source>Trowel grip as received</source>
            <translation>Kellengriff wie erhalten</translation>
        </message>
    </context>
    <context>
        <name>viewer/document/document.py</name>
        <message>
            <source>Turn the part</source>
            <translation>Teil drehen</translation>
        </message>
        <message>
            <source>Mark faces</source>
            <translation>Flächen markieren</translation>
        </message>
        <message>
            <source>Change the process</source>
            <translation>Prozess ändern</translation>
        </message>
        <message>
            <source>Choose in the shop</source>
            <translation>In der Werkstatt wählen</translation>
        </message>
        <message>
            <source>Name the client</source>
            <translation>Auftraggeber nennen</translation>
        </message>
        <message>
            <source>Pin the pose</source>
            <translation>Lage anheften</translation>
        </message>
        <message>
            <source>Unpin the pose</source>
            <translation>Lage lösen</translation>
        </message>
        <message>
            <source>Keep the pose</source>
            <translation>Lage merken</translation>
        </message>
        <message>
            <source>Rename the kept pose</source>
            <translation>Gemerkte Lage umbenennen</translation>
        </message>
        <message>
            <source>Change the note</source>
            <translation>Notiz ändern</translation>
        </message>
        <message>
            <source>Move the kept pose</source>
            <translation>Gemerkte Lage verschieben</translation>
        </message>
        <message>
            <source>Remove the kept pose</source>
            <translation>Gemerkte Lage entfernen</translation>
        </message>
        <message>
            <source>Write down a result</source>
            <translation>Ergebnis aufschreiben</translation>
        </message>
        <message>
            <source>Remove the trial</source>
            <translation>Versuch entfernen</translation>
        </message>
        <message>
            <source>Take what trials say</source>
            <translation>Übernehmen, was Versuche sagen</translation>
        </message>
        <message>
            <source>Put the limit back</source>
            <translation>Grenzwert zurücksetzen</translation>
        </message>
        <message>
            <source>Swap with the pinned pose</source>
            <translation>Mit der angehefteten Lage tauschen</translation>
        </message>
    </context>
    <context>
        <name>viewer/document/job_piece.py</name>
        <message>
            <source>It grew or shrank with the part, joints too; cut it anew where they must fit.</source>
            <translation>Es ist mit dem Teil gewachsen oder geschrumpft, samt Stiften und Nuten; schneiden Sie es neu, wo sie passen müssen.</translation>
        </message>
        <message>
            <source>The face classes do not fit the part; mark the faces again.</source>
            <translation>Die Flächenklassen passen nicht zum Teil; markieren Sie die Flächen neu.</translation>
        </message>
    </context>
    <context>
        <name>viewer/document/kept_poses.py</name>
        <message>
            <source>Pose {number}</source>
            <translation>Lage {number}</translation>
        </message>
    </context>
    <context>
        <name>viewer/document/sheet_comparison.py</name>
        <message>
            <source>✓ better</source>
            <translation>✓ besser</translation>
        </message>
        <message>
            <source>✗ worse</source>
            <translation>✗ schlechter</translation>
        </message>
        <message>
            <source>≈ alike</source>
            <translation>≈ gleich</translation>
        </message>
        <message>
            <source>Always in view, touched by supports</source>
            <translation>Immer im Blick, mit Stützkontakt</translation>
        </message>
        <message>
            <source>Seen in use, touched by supports</source>
            <translation>Im Gebrauch zu sehen, mit Stützkontakt</translation>
        </message>
        <message>
            <source>Always in view, with steps wider than {road_mm:g} mm</source>
            <translation>Immer im Blick, mit Stufen breiter als {road_mm:g} mm</translation>
        </message>
        <message>
            <source>Volume of supports</source>
            <translation>Volumen der Stützen</translation>
        </message>
        <message>
            <source>Height in the machine</source>
            <translation>Höhe in der Maschine</translation>
        </message>
        <message>
            <source>Surface touched by supports</source>
            <translation>Oberfläche mit Stützkontakt</translation>
        </message>
        <message>
            <source>{height:.0f} mm</source>
            <translation>{height:.0f} mm</translation>
        </message>
        <message>
            <source>none</source>
            <translation>keine</translation>
        </message>
        <message>
            <source>Time</source>
            <translation>Zeit</translation>
        </message>
        <message>
            <source>Material</source>
            <translation>Material</translation>
        </message>
        <message>
            <source>Price</source>
            <translation>Preis</translation>
        </message>
    </context>
    <context>
        <name>viewer/document/sheet_facts.py</name>
        <message>
            <source>Pinned pose</source>
            <translation>Angeheftet</translation>
        </message>
        <message>
            <source>Chosen</source>
            <translation>Gewählt</translation>
        </message>
    </context>
    <context>
        <name>viewer/document/sheet_traces.py</name>
        <message>
            <source>No support touches the faces that are always in view (class A): they come out without marks of supports.</source>
            <translation>Keine Stütze liegt an den Flächen an, die immer im Blick sind (Klasse A): Sie werden ohne Spuren von Stützen.</translation>
        </message>
        <message>
            <source>No support touches the faces that are seen in use (class B).</source>
            <translation>Keine Stütze liegt an den Flächen an, die im Gebrauch zu sehen sind (Klasse B).</translation>
        </message>
        <message>
            <source>Supports touch {touched} of the {area} that are always in view (class A), {share:.1%} of them. The pictures show where.</source>
            <translation>Stützen liegen an {touched} der {area} an, die immer im Blick sind (Klasse A), das sind {share:.1%}. Die Bilder zeigen, wo.</translation>
        </message>
        <message>
            <source>Supports touch {touched} of the {area} that are seen in use (class B), {share:.1%} of them.</source>
            <translation>Stützen liegen an {touched} der {area} an, die im Gebrauch zu sehen sind (Klasse B), das sind {share:.1%}.</translation>
        </message>
        <message>
            <source>Supports stand on {stood_on} of the faces that are always in view.</source>
            <translation>Stützen stehen auf {stood_on} der Flächen, die immer im Blick sind.</translation>
        </message>
        <message>
            <source>Supports stand on {stood_on} of the faces that are seen in use.</source>
            <translation>Stützen stehen auf {stood_on} der Flächen, die im Gebrauch zu sehen sind.</translation>
        </message>
        <message>
            <source>On {grazed} always in view a support stands so close that it may leave faint traces.</source>
            <translation>An {grazed}, die immer im Blick sind, steht eine Stütze so nah, dass sie schwache Spuren hinterlassen kann.</translation>
        </message>
        <message>
            <source>On {grazed} seen in use a support stands so close that it may leave faint traces.</source>
            <translation>An {grazed}, die im Gebrauch zu sehen sind, steht eine Stütze so nah, dass sie schwache Spuren hinterlassen kann.</translation>
        </message>
        <message>
            <source>No faces are marked as the ones that show, so all count alike; supports touch {touched}.</source>
            <translation>Keine Flächen sind als sichtbar markiert, daher zählen alle gleich; Stützen liegen an {touched} an.</translation>
        </message>
        <message>
            <source>The part grows in layers of {layer_mm:g} mm; on slopes their edges show as fine steps, the broader the flatter the slope.</source>
            <translation>Das Teil wächst in Schichten von {layer_mm:g} mm; an Schrägen sieht man deren Kanten als feine Stufen, umso breiter, je flacher die Schräge ist.</translation>
        </message>
        <message>
            <source>Where a support was: {how}.</source>
            <translation>Wo eine Stütze war: {how}.</translation>
        </message>
        <message>
            <source>none of them</source>
            <translation>keiner davon</translation>
        </message>
        <message>
            <source>On {visible} always in view these steps are broader than {road_mm:g} mm.</source>
            <translation>Auf {visible}, die immer im Blick sind, sind diese Stufen breiter als {road_mm:g} mm.</translation>
        </message>
        <message>
            <source>Nowhere on the faces always in view are these steps broader than {road_mm:g} mm.</source>
            <translation>Nirgends auf den Flächen, die immer im Blick sind, sind diese Stufen breiter als {road_mm:g} mm.</translation>
        </message>
    </context>
    <context>
        <name>viewer/document/sheet_words.py</name>
        <message>
            <source>{volume:,.1f} cm³</source>
            <translation>{volume:,.1f} cm³</translation>
        </message>
        <message>
            <source>{hours:,.0f} h</source>
            <translation>{hours:,.0f} h</translation>
        </message>
        <message>
            <source>{amount:,.2f} {currency}</source>
            <translation>{amount:,.2f} {currency}</translation>
        </message>
        <message>
            <source>about {likely} ({low} to {high})</source>
            <translation>etwa {likely} ({low} bis {high})</translation>
        </message>
        <message>
            <source>{area:,.1f} cm²</source>
            <translation>{area:,.1f} cm²</translation>
        </message>
        <message>
            <source>{area:,.0f} mm²</source>
            <translation>{area:,.0f} mm²</translation>
        </message>
        <message>
            <source>under 1 mm²</source>
            <translation>unter 1 mm²</translation>
        </message>
        <message>
            <source>{minutes:.0f} min</source>
            <translation>{minutes:.0f} min</translation>
        </message>
        <message>
            <source>{hours:.1f} h</source>
            <translation>{hours:.1f} h</translation>
        </message>
        <message>
            <source>{mass:,.2f} kg</source>
            <translation>{mass:,.2f} kg</translation>
        </message>
        <message>
            <source>{mass:,.1f} g</source>
            <translation>{mass:,.1f} g</translation>
        </message>
        <message>
            <source>{mass:,.0f} g</source>
            <translation>{mass:,.0f} g</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/atomic_write.py</name>
        <message>
            <source>the disk is full. Free some space or choose another disk</source>
            <translation>Der Datenträger ist voll. Schaffen Sie Platz oder wählen Sie einen anderen</translation>
        </message>
        <message>
            <source>your share of the disk is used up. Free some space or choose another disk</source>
            <translation>Ihr Anteil am Datenträger ist verbraucht. Schaffen Sie Platz oder wählen Sie einen anderen</translation>
        </message>
        <message>
            <source>the file is too large for this disk. Choose another disk</source>
            <translation>Die Datei ist zu groß für diesen Datenträger. Wählen Sie einen anderen</translation>
        </message>
        <message>
            <source>you may not write there. Choose another folder</source>
            <translation>Sie dürfen dort nicht schreiben. Wählen Sie einen anderen Ordner</translation>
        </message>
        <message>
            <source>the disk can only be read. Choose another folder</source>
            <translation>Der Datenträger lässt sich nur lesen. Wählen Sie einen anderen Ordner</translation>
        </message>
        <message>
            <source>the folder does not exist. Choose another folder</source>
            <translation>Den Ordner gibt es nicht. Wählen Sie einen anderen Ordner</translation>
        </message>
        <message>
            <source>that is a folder. Choose a file name</source>
            <translation>Das ist ein Ordner. Wählen Sie einen Dateinamen</translation>
        </message>
        <message>
            <source>the disk does not answer. Plug it in again or choose another folder</source>
            <translation>der Datenträger antwortet nicht. Stecken Sie ihn wieder ein oder wählen Sie einen anderen Ordner</translation>
        </message>
        <message>
            <source>the disk is gone. Plug it in again or choose another folder</source>
            <translation>der Datenträger ist nicht mehr da. Stecken Sie ihn wieder ein oder wählen Sie einen anderen Ordner</translation>
        </message>
        <message>
            <source>the name is too long. Choose a shorter one</source>
            <translation>Der Name ist zu lang. Wählen Sie einen kürzeren</translation>
        </message>
        <message>
            <source>{error}. Choose another folder</source>
            <translation>{error}. Wählen Sie einen anderen Ordner</translation>
        </message>
        <message>
            <source>{name} was not saved: {reason}.</source>
            <translation>{name} wurde nicht gespeichert: {reason}.</translation>
        </message>
        <message>
            <source>{name} was not saved: that is a folder. Choose a file name.</source>
            <translation>{name} wurde nicht gespeichert: Das ist ein Ordner. Wählen Sie einen Dateinamen.</translation>
        </message>
        <message>
            <source>{name} is a file; name a folder to write to.</source>
            <translation>{name} ist eine Datei; geben Sie einen Ordner an, in den geschrieben werden soll.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/degenerate_triangles.py</name>
        <message>
            <source>Looking for triangles without area</source>
            <translation>Dreiecke ohne Fläche werden gesucht</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/hand_over.py</name>
        <message>
            <source>a test piece of the job</source>
            <translation>ein Probestück des Auftrags</translation>
        </message>
        <message>
            <source>the part as it is to be laid, the faces that show as triangle sets and in colour</source>
            <translation>das Teil, wie es zu legen ist, die Sichtflächen als Dreiecksgruppen und in Farbe</translation>
        </message>
        <message>
            <source>the same, in millimetres</source>
            <translation>dasselbe, in Millimetern</translation>
        </message>
        <message>
            <source>the part with its supports as objects of their own</source>
            <translation>das Teil mit seinen Stützen als eigenen Objekten</translation>
        </message>
        <message>
            <source>the bulk of the supports, where the part stands</source>
            <translation>der Hauptteil der Stützen, an der Stelle, an der sie stehen</translation>
        </message>
        <message>
            <source>the layers of the supports next to the part</source>
            <translation>die Schichten der Stützen gleich am Teil</translation>
        </message>
        <message>
            <source>the part with the space beside class A in which no support should stand</source>
            <translation>das Teil mit dem Raum neben Klasse A, in dem keine Stütze stehen soll</translation>
        </message>
        <message>
            <source>that space alone; do not print it</source>
            <translation>dieser Raum allein; nicht drucken</translation>
        </message>
        <message>
            <source>a test piece: where supports touch class A most, cut out, laid as the whole</source>
            <translation>ein Probestück: wo Stützen an Klasse A am meisten anliegen, ausgeschnitten, gelegt wie das Ganze</translation>
        </message>
        <message>
            <source>a test piece: the broadest steps on class A, cut out, laid as the whole</source>
            <translation>ein Probestück: die breitesten Stufen auf Klasse A, ausgeschnitten, gelegt wie das Ganze</translation>
        </message>
        <message>
            <source>what each layer holds, lowest first</source>
            <translation>was jede Schicht enthält, die unterste zuerst</translation>
        </message>
        <message>
            <source>layers of different heights that keep the steps on class A small, as a proposal</source>
            <translation>Schichten verschiedener Höhe, die die Stufen auf Klasse A klein halten, als Vorschlag</translation>
        </message>
        <message>
            <source>what the client sees and signs, to be printed</source>
            <translation>was der Auftraggeber sieht und unterschreibt, zum Drucken</translation>
        </message>
        <message>
            <source>the same with a part that can be turned; opens in any browser, offline</source>
            <translation>dasselbe mit einem Teil, das sich drehen lässt; öffnet in jedem Browser, ohne Netz</translation>
        </message>
        <message>
            <source>the job, to be opened again with Showside</source>
            <translation>der Auftrag, wieder zu öffnen mit Showside</translation>
        </message>
        <message>
            <source>Measuring the part</source>
            <translation>Das Teil wird gemessen</translation>
        </message>
        <message>
            <source>Writing the pack</source>
            <translation>Das Paket wird geschrieben</translation>
        </message>
        <message>
            <source>Reading the pack back</source>
            <translation>Das Paket wird zurückgelesen</translation>
        </message>
        <message>
            <source>{part}, laid with the part's direction ({up}) up, spin {spin_deg:g}°.</source>
            <translation>{part}, gelegt mit der Richtung ({up}) des Teils nach oben, Drehung {spin_deg:g}°.</translation>
        </message>
        <message>
            <source>All files are in millimetres, z up, platform at z = 0, and fit over each other.</source>
            <translation>Alle Dateien sind in Millimetern, z nach oben, Bauplattform bei z = 0, und liegen passend übereinander.</translation>
        </message>
        <message>
            <source>Layer height {layer_mm:g} mm, {layers:,} layers, height {height_mm:.2f} mm.</source>
            <translation>Schichthöhe {layer_mm:g} mm, {layers:,} Schichten, Höhe {height_mm:.2f} mm.</translation>
        </message>
        <message>
            <source>Supports touch class A on {A:,.1f} mm², class B on {B:,.1f} mm², other faces on {unmarked:,.1f} mm².</source>
            <translation>Stützen liegen an Klasse A auf {A:,.1f} mm² an, an Klasse B auf {B:,.1f} mm², an anderen Flächen auf {unmarked:,.1f} mm².</translation>
        </message>
        <message>
            <source>Support volume {measured_mm3:,.1f} mm³ as measured, {bodies_mm3:,.1f} mm³ as bodies.</source>
            <translation>Volumen der Stützen: {measured_mm3:,.1f} mm³ gemessen, {bodies_mm3:,.1f} mm³ als Körper.</translation>
        </message>
        <message>
            <source>Files, each with its SHA-256:</source>
            <translation>Dateien, jede mit ihrer SHA-256:</translation>
        </message>
        <message>
            <source>{name}: {words} ({count:,} bytes)</source>
            <translation>{name}: {words} ({count:,} Bytes)</translation>
        </message>
        <message>
            <source>There is no part to pack. Open one first.</source>
            <translation>Es ist kein Teil zum Packen da. Öffnen Sie zuerst eines.</translation>
        </message>
        <message>
            <source>{name} is damaged in the zip; pack the job again.</source>
            <translation>{name} ist in der Zip-Datei beschädigt; packen Sie den Auftrag noch einmal.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/job_file.py</name>
        <message>
            <source>Another program changed this job, so the part is read as it was laid there.</source>
            <translation>Ein anderes Programm hat diesen Auftrag geändert; das Teil wird so gelesen, wie es dort lag.</translation>
        </message>
        <message>
            <source>There is no part to save. Open one first.</source>
            <translation>Es gibt kein Teil zu speichern. Öffnen Sie zuerst eines.</translation>
        </message>
        <message>
            <source>{name} was not saved: end its name in {job_suffix}.</source>
            <translation>{name} wurde nicht gespeichert: Der Name muss auf {job_suffix} enden.</translation>
        </message>
        <message>
            <source>The part as received was too large to keep beside the mended one in this job. To compare with it, open the file it came from.</source>
            <translation>Das Teil wie erhalten war zu groß, um neben dem ausgebesserten in diesem Auftrag zu bleiben. Öffnen Sie zum Vergleich die Datei, aus der es stammt.</translation>
        </message>
        <message>
            <source>The part as received, which this job keeps, is damaged and was left aside. To compare with it, open the file it came from.</source>
            <translation>Das Teil wie erhalten, das dieser Auftrag aufbewahrt, ist beschädigt und wurde weggelassen. Öffnen Sie zum Vergleich die Datei, aus der es stammt.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/job_lock.py</name>
        <message>
            <source>{name} is open in another window, so it can only be read here. Save it under another name to go on.</source>
            <translation>{name} ist in einem anderen Fenster offen und kann hier nur gelesen werden. Speichern Sie es unter einem anderen Namen, um weiterzuarbeiten.</translation>
        </message>
        <message>
            <source>{name} is open on the computer {host} ({user}), so it can only be read here. Save it under another name to go on.</source>
            <translation>{name} ist auf dem Rechner {host} ({user}) offen und kann hier nur gelesen werden. Speichern Sie es unter einem anderen Namen, um weiterzuarbeiten.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/job_pieces.py</name>
        <message>
            <source>This job's own triangles are damaged; the finer ones of its marks are taken for them.</source>
            <translation>Die eigenen Dreiecke dieses Auftrags sind beschädigt; an ihrer Stelle gelten die feineren seiner Markierungen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/job_test_pieces.py</name>
        <message>
            <source>The pieces that this job keeps are damaged and were left aside; cut them anew.</source>
            <translation>Die Stücke, die dieser Auftrag behält, sind beschädigt und wurden weggelassen; schneiden Sie sie neu.</translation>
        </message>
        <message>
            <source>“{name}” is too large to be kept in the job; save it by itself and take it off the list.</source>
            <translation>„{name}“ ist zu groß, um im Auftrag behalten zu werden; speichern Sie es einzeln und nehmen Sie es von der Liste.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/job_trials.py</name>
        <message>
            <source>The trials that this job keeps are damaged and were left aside.</source>
            <translation>Die Versuche in diesem Auftrag sind beschädigt und wurden weggelassen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/job_words.py</name>
        <message>
            <source>This job was saved by a newer version of the program; its settings were left aside. Update the program to see all of it.</source>
            <translation>Diesen Auftrag hat eine neuere Fassung des Programms gespeichert; seine Einstellungen wurden weggelassen. Aktualisieren Sie das Programm, um alles zu sehen.</translation>
        </message>
        <message>
            <source>The job's settings are damaged and were left aside.</source>
            <translation>Die Einstellungen des Auftrags sind beschädigt und wurden weggelassen.</translation>
        </message>
        <message>
            <source>The job's {name} is not a number.</source>
            <translation>{name} des Auftrags ist keine Zahl.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/kept_table.py</name>
        <message>
            <source>Measuring the kept poses</source>
            <translation>Gemerkte Lagen messen</translation>
        </message>
        <message>
            <source>No pose is kept yet; keep one first (K).</source>
            <translation>Noch ist keine Lage gemerkt; merken Sie zuerst eine (K).</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/maker_file.py</name>
        <message>
            <source>{name} cannot be read ({error}); correct it, or move it away to begin anew.</source>
            <translation>{name} lässt sich nicht lesen ({error}); berichtigen Sie die Datei oder schieben Sie sie weg, um neu anzufangen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/marks_file.py</name>
        <message>
            <source>{name} lists face {both} in both A and B. Leave it in one of them.</source>
            <translation>{name} führt Fläche {both} in A und in B auf. Lassen Sie sie in einer von beiden.</translation>
        </message>
        <message>
            <source>{name} cannot be read ({strerror}).</source>
            <translation>{name} lässt sich nicht lesen ({strerror}).</translation>
        </message>
        <message>
            <source>{name} is not a list of marks: it has to look like {{"A": [0, 1], "B": [2]}} ({error}).</source>
            <translation>{name} ist keine Liste von Markierungen: Sie muss aussehen wie {{"A": [0, 1], "B": [2]}} ({error}).</translation>
        </message>
        <message>
            <source>{name} marks face {wrong} as class {name_2}, but the part has the faces 0 to {count}. Check that the marks belong to this file.</source>
            <translation>{name} markiert Fläche {wrong} als Klasse {name_2}, aber das Teil hat die Flächen 0 bis {count}. Prüfen Sie, ob die Markierungen zu dieser Datei gehören.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/mesh_files.py</name>
        <message>
            <source>{name} is of a kind that is not known here. Open one of {known}.</source>
            <translation>{name} ist von einer Art, die hier nicht bekannt ist. Öffnen Sie eine von {known}.</translation>
        </message>
        <message>
            <source>{name} has one item only; leave the item number out.</source>
            <translation>{name} enthält nur einen Posten; lassen Sie die Postennummer weg.</translation>
        </message>
        <message>
            <source>{name} does not fit into this computer's memory.</source>
            <translation>{name} passt nicht in den Speicher dieses Rechners.</translation>
        </message>
        <message>
            <source>3MF part or saved job</source>
            <translation>3MF-Teil oder gespeicherter Auftrag</translation>
        </message>
        <message>
            <source>STL mesh</source>
            <translation>STL-Netz</translation>
        </message>
        <message>
            <source>OBJ mesh</source>
            <translation>OBJ-Netz</translation>
        </message>
        <message>
            <source>PLY mesh</source>
            <translation>PLY-Netz</translation>
        </message>
        <message>
            <source>OFF mesh</source>
            <translation>OFF-Netz</translation>
        </message>
        <message>
            <source>STEP model</source>
            <translation>STEP-Modell</translation>
        </message>
        <message>
            <source>IGES model</source>
            <translation>IGES-Modell</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/obj_file.py</name>
        <message>
            <source>Counting the faces</source>
            <translation>Flächen werden gezählt</translation>
        </message>
        <message>
            <source>Reading the faces</source>
            <translation>Flächen werden gelesen</translation>
        </message>
        <message>
            <source>{name} is written with decimal commas, which OBJ does not know. Export it again with decimal points.</source>
            <translation>{name} ist mit Dezimalkommas geschrieben, die OBJ nicht kennt. Exportieren Sie die Datei mit Dezimalpunkten.</translation>
        </message>
        <message>
            <source>{name} starts as UTF-16 text but is damaged. Export it again.</source>
            <translation>{name} beginnt als UTF-16-Text, ist aber beschädigt. Exportieren Sie die Datei neu.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/off_file.py</name>
        <message>
            <source>Reading the corners</source>
            <translation>Ecken werden gelesen</translation>
        </message>
        <message>
            <source>{name} is not an OFF file. Check that it was exported as OFF.</source>
            <translation>{name} ist keine OFF-Datei. Prüfen Sie, ob sie als OFF exportiert wurde.</translation>
        </message>
        <message>
            <source>{name} is a binary OFF file. Export it as text OFF or as STL.</source>
            <translation>{name} ist eine binäre OFF-Datei. Exportieren Sie sie als Text-OFF oder als STL.</translation>
        </message>
        <message>
            <source>{name} is cut off: it announces {corner_count:,} corners and {polygon_count:,} faces, more than it can hold. Ask for the file again.</source>
            <translation>{name} ist abgeschnitten: Die Datei kündigt {corner_count:,} Ecken und {polygon_count:,} Flächen an, mehr, als sie fasst. Fordern Sie die Datei neu an.</translation>
        </message>
        <message>
            <source>corners</source>
            <translation>Ecken</translation>
        </message>
        <message>
            <source>faces</source>
            <translation>Flächen</translation>
        </message>
        <message>
            <source>{name} is cut off: {there:,} of {announced:,} {what} are there. Ask for the file again.</source>
            <translation>{name} ist abgeschnitten: {there:,} von {announced:,} {what} sind da. Fordern Sie die Datei neu an.</translation>
        </message>
        <message>
            <source>{name} does not say how many faces it has. Export it again.</source>
            <translation>{name} sagt nicht, wie viele Flächen die Datei hat. Exportieren Sie sie neu.</translation>
        </message>
        <message>
            <source>{name} is written with decimal commas. Export it with decimal points.</source>
            <translation>{name} ist mit Dezimalkommas geschrieben. Exportieren Sie die Datei mit Dezimalpunkten.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/pack_check.py</name>
        <message>
            <source>{name} was not read back as it was written; pack the job again.</source>
            <translation>{name} ließ sich nicht so zurücklesen, wie sie geschrieben wurde; packen Sie den Auftrag noch einmal.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/pack_pieces.py</name>
        <message>
            <source>{part}, worst patch</source>
            <translation>{part}, schlimmste Stelle</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/package_check.py</name>
        <message>
            <source>{name} has no 3D model inside. Export the part again.</source>
            <translation>{name} enthält kein 3D-Modell. Exportieren Sie das Teil neu.</translation>
        </message>
        <message>
            <source>{name} would unpack to {unpacked:,.0f} MB in {entries:,} parts, far more than a part needs; it was not opened. Ask for a plain export.</source>
            <translation>{name} würde ausgepackt {unpacked:,.0f} MB in {entries:,} Stücken groß, weit mehr, als ein Teil braucht; die Datei wurde nicht geöffnet. Bitten Sie um einen einfachen Export.</translation>
        </message>
        <message>
            <source>{name} repeats its objects {copies:,} times, more than can be worked with. Ask for a plain export of the part.</source>
            <translation>{name} wiederholt seine Objekte {copies:,}-mal, mehr, als sich bearbeiten lässt. Bitten Sie um einen einfachen Export des Teils.</translation>
        </message>
        <message>
            <source>{name} is not a 3MF package. Check that it was exported as 3MF.</source>
            <translation>{name} ist kein 3MF-Paket. Prüfen Sie, ob die Datei als 3MF exportiert wurde.</translation>
        </message>
        <message>
            <source>{name} defines its own XML rules (a DOCTYPE), which 3MF forbids; it was not opened. Ask for a plain export.</source>
            <translation>{name} legt eigene XML-Regeln fest (DOCTYPE), was 3MF verbietet; die Datei wurde nicht geöffnet. Bitten Sie um einen einfachen Export.</translation>
        </message>
        <message>
            <source>{name} is cut off. Ask for the file again.</source>
            <translation>{name} ist abgeschnitten. Fordern Sie die Datei neu an.</translation>
        </message>
        <message>
            <source>Looking through the package</source>
            <translation>Paket wird durchgesehen</translation>
        </message>
        <message>
            <source>{name} is damaged: a part of the package cannot be unpacked. Ask for the file again.</source>
            <translation>{name} ist beschädigt: Ein Stück des Pakets lässt sich nicht auspacken. Fordern Sie die Datei neu an.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/picture_files.py</name>
        <message>
            <source>Packing the turntable</source>
            <translation>Drehbild wird gepackt</translation>
        </message>
        <message>
            <source>A turntable cannot be written as {suffix}; choose {known}.</source>
            <translation>Ein Drehbild kann nicht als {suffix} geschrieben werden; wählen Sie {known}.</translation>
        </message>
        <message>
            <source>a file without a suffix</source>
            <translation>Datei ohne Endung</translation>
        </message>
        <message>
            <source> or </source>
            <translation> oder </translation>
        </message>
    </context>
    <context>
        <name>viewer/files/picture_reading.py</name>
        <message>
            <source>{name} cannot be read as a picture; choose a PNG or JPEG.</source>
            <translation>{name} kann nicht als Bild gelesen werden; wählen Sie ein PNG oder JPEG.</translation>
        </message>
        <message>
            <source>{name} is too large for a picture here; make it smaller.</source>
            <translation>{name} ist für ein Bild hier zu groß; verkleinern Sie es.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/piece_files.py</name>
        <message>
            <source>{name} was not saved: end its name in one of {known}.</source>
            <translation>{name} wurde nicht gespeichert: Der Name muss auf eines von {known} enden.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/platform_file.py</name>
        <message>
            <source>There is nothing to put on a platform; make pieces first.</source>
            <translation>Es gibt nichts, was auf eine Plattform kommt; machen Sie zuerst Stücke.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/ply_file.py</name>
        <message>
            <source>{name} is not a PLY file. Check that it was exported as PLY.</source>
            <translation>{name} ist keine PLY-Datei. Prüfen Sie, ob sie als PLY exportiert wurde.</translation>
        </message>
        <message>
            <source>{name} is cut off within its header. Ask for the file again.</source>
            <translation>{name} ist im Kopf abgeschnitten. Fordern Sie die Datei neu an.</translation>
        </message>
        <message>
            <source>{name} holds points but no faces. Export the part as a surface mesh.</source>
            <translation>{name} enthält Punkte, aber keine Flächen. Exportieren Sie das Teil als Oberflächennetz.</translation>
        </message>
        <message>
            <source>{name} is cut off: it has room for {there:,} of its {count:,} {name_2} rows. Ask for the file again.</source>
            <translation>{name} ist abgeschnitten: Die Datei hat Platz für {there:,} ihrer {count:,} {name_2}-Zeilen. Fordern Sie sie neu an.</translation>
        </message>
        <message>
            <source>{name} has corners without x, y and z. Export it again.</source>
            <translation>{name} hat Ecken ohne x, y und z. Exportieren Sie die Datei neu.</translation>
        </message>
        <message>
            <source>{name} has faces without corners. Export it again.</source>
            <translation>{name} hat Flächen ohne Ecken. Exportieren Sie die Datei neu.</translation>
        </message>
        <message>
            <source>{name} lists other numbers before the corners of its faces. Export it as binary PLY or as STL.</source>
            <translation>{name} führt vor den Ecken seiner Flächen andere Zahlen auf. Exportieren Sie die Datei als binäres PLY oder als STL.</translation>
        </message>
        <message>
            <source>The file announces {count:,} faces, but {done:,} are there.</source>
            <translation>Die Datei kündigt {count:,} Flächen an, aber {done:,} sind da.</translation>
        </message>
        <message>
            <source>{name} has a PLY header that makes no sense. Export it again.</source>
            <translation>{name} hat einen PLY-Kopf ohne Sinn. Exportieren Sie die Datei neu.</translation>
        </message>
        <message>
            <source>{name} is cut off: {done:,} of {count:,} corners are there. Ask for the file again.</source>
            <translation>{name} ist abgeschnitten: {done:,} von {count:,} Ecken sind da. Fordern Sie die Datei neu an.</translation>
        </message>
        <message>
            <source>{name} is cut off: {done:,} of {count:,} faces are there. Ask for the file again.</source>
            <translation>{name} ist abgeschnitten: {done:,} von {count:,} Flächen sind da. Fordern Sie die Datei neu an.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/polygon_mesh.py</name>
        <message>
            <source>{name} is damaged: its face {polygon:,} names a corner that the file does not have. Export it again.</source>
            <translation>{name} ist beschädigt: Fläche {polygon:,} nennt eine Ecke, die die Datei nicht hat. Exportieren Sie sie neu.</translation>
        </message>
        <message>
            <source>{name} has faces but no corners. Export it again.</source>
            <translation>{name} hat Flächen, aber keine Ecken. Exportieren Sie die Datei neu.</translation>
        </message>
        <message>
            <source>face has</source>
            <translation>Fläche hat</translation>
        </message>
        <message>
            <source>faces have</source>
            <translation>Flächen haben</translation>
        </message>
        <message>
            <source>{short:,} {faces_have} fewer than three corners and no surface.</source>
            <translation>{short:,} {faces_have} weniger als drei Ecken und keinen Flächeninhalt.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/polygons.py</name>
        <message>
            <source>Splitting polygons</source>
            <translation>Vielecke werden geteilt</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/posed_files.py</name>
        <message>
            <source>There is no part to write. Open one first.</source>
            <translation>Es gibt kein Teil zu schreiben. Öffnen Sie zuerst eines.</translation>
        </message>
        <message>
            <source>Writing the triangles</source>
            <translation>Dreiecke werden geschrieben</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/raw_mesh.py</name>
        <message>
            <source>Joining the facets</source>
            <translation>Facetten werden verbunden</translation>
        </message>
        <message>
            <source>The unit has to be one of {units}, not {unit}.</source>
            <translation>Die Einheit muss eine von {units} sein, nicht {unit}.</translation>
        </message>
        <message>
            <source>{name} holds no triangles, so there is nothing to print. Export the part as a surface mesh.</source>
            <translation>{name} enthält keine Dreiecke, es gibt also nichts zu drucken. Exportieren Sie das Teil als Oberflächennetz.</translation>
        </message>
        <message>
            <source>{name} reaches {largest:.3g} mm from its origin, which no part does: its numbers are damaged. Ask for the file again.</source>
            <translation>{name} reicht {largest:.3g} mm vom Ursprung weg, was kein Teil tut: Die Zahlen sind beschädigt. Fordern Sie die Datei neu an.</translation>
        </message>
        <message>
            <source>The part is flattened to a single point, so it has no size.</source>
            <translation>Das Teil ist zu einem Punkt zusammengedrückt und hat keine Größe.</translation>
        </message>
        <message>
            <source>has</source>
            <translation>hat</translation>
        </message>
        <message>
            <source>have</source>
            <translation>haben</translation>
        </message>
        <message>
            <source>{name} is damaged: {count:,} of its {face_count:,} triangles {has} a corner whose coordinates are not numbers. Export it again.</source>
            <translation>{name} ist beschädigt: {count:,} von {face_count:,} Dreiecken {has} eine Ecke, deren Koordinaten keine Zahlen sind. Exportieren Sie die Datei neu.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/read_bytes.py</name>
        <message>
            <source>{name} is an empty file. Ask for it again.</source>
            <translation>{name} ist eine leere Datei. Fordern Sie sie neu an.</translation>
        </message>
        <message>
            <source>{name} is a folder. Choose a file inside it.</source>
            <translation>{name} ist ein Ordner. Wählen Sie eine Datei darin.</translation>
        </message>
        <message>
            <source>Reading the file</source>
            <translation>Datei wird gelesen</translation>
        </message>
        <message>
            <source>There is no file {path}. Check the name and the folder.</source>
            <translation>Es gibt keine Datei {path}. Prüfen Sie Namen und Ordner.</translation>
        </message>
        <message>
            <source>{name} may not be read by you. Ask its owner for leave, or copy it first.</source>
            <translation>Sie dürfen {name} nicht lesen. Bitten Sie den Besitzer um Erlaubnis oder kopieren Sie die Datei zuerst.</translation>
        </message>
        <message>
            <source>{name} cannot be read ({value}). Copy it to another disk and try again.</source>
            <translation>{name} lässt sich nicht lesen ({value}). Kopieren Sie die Datei auf einen anderen Datenträger und versuchen Sie es noch einmal.</translation>
        </message>
        <message>
            <source>{name} shrank while it was read. Try once more.</source>
            <translation>{name} wurde beim Lesen kleiner. Versuchen Sie es noch einmal.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/recovery.py</name>
        <message>
            <source>The unsaved work on {name} is damaged and cannot be opened; open the file it came from.</source>
            <translation>Die ungespeicherte Arbeit an {name} ist beschädigt und lässt sich nicht öffnen; öffnen Sie die Datei, aus der sie stammt.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/sheet_html.py</name>
        <message>
            <source>Drag to turn the part, with two fingers or the wheel to come nearer; or use the arrow keys, plus and minus.</source>
            <translation>Ziehen Sie, um das Teil zu drehen, mit zwei Fingern oder dem Rad kommen Sie näher; oder nehmen Sie die Pfeiltasten, Plus und Minus.</translation>
        </message>
        <message>
            <source>The part as it lies in the machine, to be turned</source>
            <translation>Das Teil, wie es in der Maschine liegt, zum Drehen</translation>
        </message>
        <message>
            <source>Here the part has {now:,} of {before:,} faces; no place of it lies farther than {most_mm:.2g} mm from the part that is printed.</source>
            <translation>Hier hat das Teil {now:,} von {before:,} Flächen; keine Stelle liegt weiter als {most_mm:.2g} mm von dem Teil, das gedruckt wird.</translation>
        </message>
        <message>
            <source>This page holds everything itself and asks nothing of the internet.</source>
            <translation>Diese Seite enthält alles selbst und fragt nichts im Internet ab.</translation>
        </message>
        <message>
            <source>Turn to the left</source>
            <translation>Nach links drehen</translation>
        </message>
        <message>
            <source>Turn to the right</source>
            <translation>Nach rechts drehen</translation>
        </message>
        <message>
            <source>See it more from above</source>
            <translation>Mehr von oben sehen</translation>
        </message>
        <message>
            <source>See it more from below</source>
            <translation>Mehr von unten sehen</translation>
        </message>
        <message>
            <source>Come nearer</source>
            <translation>Näher kommen</translation>
        </message>
        <message>
            <source>Go farther off</source>
            <translation>Weiter weg gehen</translation>
        </message>
        <message>
            <source>As at first</source>
            <translation>Wie zu Beginn</translation>
        </message>
        <message>
            <source>Show where supports touch</source>
            <translation>Zeigen, wo Stützen anliegen</translation>
        </message>
        <message>
            <source>The sheet would be larger than 10 MB; write it as a PDF, or use a smaller logo.</source>
            <translation>Das Kundenblatt würde größer als 10 MB; schreiben Sie es als PDF, oder nehmen Sie ein kleineres Logo.</translation>
        </message>
        <message>
            <source>Logo</source>
            <translation>Logo</translation>
        </message>
        <message>
            <source>This browser cannot show the part in three dimensions; see the pictures.</source>
            <translation>Dieser Browser kann das Teil nicht räumlich zeigen; sehen Sie sich die Bilder an.</translation>
        </message>
        <message>
            <source>For {client}</source>
            <translation>Für {client}</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/shop_folder.py</name>
        <message>
            <source>{name} was not removed ({strerror}).</source>
            <translation>{name} wurde nicht entfernt ({strerror}).</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/step_bodies.py</name>
        <message>
            <source>Loose surfaces and gaps do not print: sew them at a tolerance, or close the CAD model.</source>
            <translation>Lose Flächen und Spalte lassen sich nicht drucken: Vernähen Sie sie mit einer Toleranz oder schließen Sie das CAD-Modell.</translation>
        </message>
        <message>
            <source>Sewn at {sew_mm:g} mm, some edges still have no partner: sew at a larger tolerance, or have the CAD model closed.</source>
            <translation>Mit {sew_mm:g} mm vernäht, haben einige Kanten noch kein Gegenüber: Vernähen Sie mit größerer Toleranz oder lassen Sie das CAD-Modell schließen.</translation>
        </message>
        <message>
            <source>one without a name</source>
            <translation>einer ohne Namen</translation>
        </message>
        <message>
            <source>Bodies: </source>
            <translation>Körper: </translation>
        </message>
        <message>
            <source> and {more:,} more.</source>
            <translation> und {more:,} weitere.</translation>
        </message>
        <message>
            <source>solid</source>
            <translation>Volumenkörper</translation>
        </message>
        <message>
            <source>solids</source>
            <translation>Volumenkörper</translation>
        </message>
        <message>
            <source>closed surface that is not called a solid</source>
            <translation>geschlossene Fläche, die nicht als Volumen bezeichnet ist</translation>
        </message>
        <message>
            <source>closed surfaces that are not called solids</source>
            <translation>geschlossene Flächen, die nicht als Volumen bezeichnet sind</translation>
        </message>
        <message>
            <source>solid whose surface has a gap</source>
            <translation>Volumenkörper mit einer Lücke in der Oberfläche</translation>
        </message>
        <message>
            <source>solids whose surfaces have gaps</source>
            <translation>Volumenkörper mit Lücken in den Oberflächen</translation>
        </message>
        <message>
            <source>loose surface that encloses nothing</source>
            <translation>lose Fläche, die nichts umschließt</translation>
        </message>
        <message>
            <source>loose surfaces that enclose nothing</source>
            <translation>lose Flächen, die nichts umschließen</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/step_file.py</name>
        <message>
            <source>The CAD kernel could not split {what} {noun} into triangles{where}: try another chord error, or fill the holes.</source>
            <translation>Der CAD-Kern konnte {what} {noun} nicht in Dreiecke teilen{where}: Versuchen Sie einen anderen Sehnenfehler oder füllen Sie die Löcher.</translation>
        </message>
        <message>
            <source>one closed body</source>
            <translation>einem geschlossenen Körper</translation>
        </message>
        <message>
            <source>{holed:,} closed bodies</source>
            <translation>{holed:,} geschlossenen Körpern</translation>
        </message>
        <message>
            <source>, which leaves holes in {bodies}</source>
            <translation>, was Löcher lässt in: {bodies}</translation>
        </message>
        <message>
            <source>{missing:,} whole</source>
            <translation>{missing:,} ganze</translation>
        </message>
        <message>
            <source>parts of some</source>
            <translation>Stücke einiger</translation>
        </message>
        <message>
            <source>surface</source>
            <translation>Fläche</translation>
        </message>
        <message>
            <source>surfaces</source>
            <translation>Flächen</translation>
        </message>
        <message>
            <source>{name} holds triangles only, no exact surfaces. Open its STEP or IGES file.</source>
            <translation>{name} enthält nur Dreiecke, keine exakten Flächen. Öffnen Sie die STEP- oder IGES-Datei dazu.</translation>
        </message>
        <message>
            <source>{name} holds no surfaces, only curves, points or drawings, so there is nothing to print. Export the solid model.</source>
            <translation>{name} enthält keine Flächen, nur Kurven, Punkte oder Zeichnungen; es gibt nichts zu drucken. Exportieren Sie das Volumenmodell.</translation>
        </message>
        <message>
            <source>The chord error has to lie between {low:g} and {high:g} mm, not {chord_mm:g} mm.</source>
            <translation>Der Sehnenfehler muss zwischen {low:g} und {high:g} mm liegen, nicht bei {chord_mm:g} mm.</translation>
        </message>
        <message>
            <source>The sewing tolerance has to lie between 0 and {most_sew_mm:g} mm, not {sew_mm:g} mm.</source>
            <translation>Die Nähtoleranz muss zwischen 0 und {most_sew_mm:g} mm liegen, nicht bei {sew_mm:g} mm.</translation>
        </message>
        <message>
            <source>This installation cannot read STEP files; export the part as 3MF or STL instead, or set the program up again.</source>
            <translation>Diese Installation kann keine STEP-Dateien lesen; exportieren Sie das Teil als 3MF oder STL oder richten Sie das Programm neu ein.</translation>
        </message>
        <message>
            <source>{name} is not a text {kind} file. Check that it was exported as {kind}.</source>
            <translation>{name} ist keine {kind}-Textdatei. Prüfen Sie, ob sie als {kind} exportiert wurde.</translation>
        </message>
        <message>
            <source>{name} is cut off: its end is missing. Ask for the file again.</source>
            <translation>{name} ist abgeschnitten: Das Ende fehlt. Fordern Sie die Datei neu an.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/step_process.py</name>
        <message>
            <source>{name} is damaged or not what its ending says: the CAD kernel refuses it. Export it again from the CAD program.</source>
            <translation>{name} ist beschädigt oder nicht das, was die Endung sagt: Der CAD-Kern weist die Datei ab. Exportieren Sie sie neu aus dem CAD-Programm.</translation>
        </message>
        <message>
            <source>{doing} ({spent_s:.0f} s)</source>
            <translation>{doing} ({spent_s:.0f} s)</translation>
        </message>
        <message>
            <source>{name} does not fit into this computer's memory as triangles. Choose a larger chord error.</source>
            <translation>{name} passt als Dreiecke nicht in den Speicher dieses Rechners. Wählen Sie einen größeren Sehnenfehler.</translation>
        </message>
        <message>
            <source>The CAD kernel crashed on {name}, so it was not read; nothing else is lost. Export it again from the CAD program, or as 3MF or STL.</source>
            <translation>Der CAD-Kern ist an {name} abgestürzt, die Datei wurde also nicht gelesen; sonst ist nichts verloren. Exportieren Sie sie neu aus dem CAD-Programm oder als 3MF oder STL.</translation>
        </message>
        <message>
            <source>{name} was given up after {limit_s:.0f} s in the CAD kernel. Choose a larger chord error, or export it as 3MF or STL.</source>
            <translation>{name} wurde nach {limit_s:.0f} s im CAD-Kern aufgegeben. Wählen Sie einen größeren Sehnenfehler oder exportieren Sie die Datei als 3MF oder STL.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/stl_file.py</name>
        <message>
            <source>{name} is not an STL file. Check that it was exported as STL.</source>
            <translation>{name} ist keine STL-Datei. Prüfen Sie, ob sie als STL exportiert wurde.</translation>
        </message>
        <message>
            <source>{name} holds no triangles. Export the part again.</source>
            <translation>{name} enthält keine Dreiecke. Exportieren Sie das Teil neu.</translation>
        </message>
        <message>
            <source>{name} is cut off: {there:,} of {announced:,} triangles are there. Ask for the file again.</source>
            <translation>{name} ist abgeschnitten: {there:,} von {announced:,} Dreiecken sind da. Fordern Sie die Datei neu an.</translation>
        </message>
        <message>
            <source>byte follows</source>
            <translation>Byte folgt</translation>
        </message>
        <message>
            <source>bytes follow</source>
            <translation>Bytes folgen</translation>
        </message>
        <message>
            <source>{surplus:,} {plural} the last triangle of the file and were left out.</source>
            <translation>{surplus:,} {plural} auf das letzte Dreieck der Datei und wurden weggelassen.</translation>
        </message>
        <message>
            <source>{name} is an STL header without triangles. Export it again.</source>
            <translation>{name} ist ein STL-Kopf ohne Dreiecke. Exportieren Sie die Datei neu.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/stl_text.py</name>
        <message>
            <source>Reading the triangles</source>
            <translation>Dreiecke werden gelesen</translation>
        </message>
        <message>
            <source>{name} is written with decimal commas, which STL does not know. Export it again with decimal points.</source>
            <translation>{name} ist mit Dezimalkommas geschrieben, die STL nicht kennt. Exportieren Sie die Datei mit Dezimalpunkten.</translation>
        </message>
        <message>
            <source>{name} is damaged: its facet {state:,} does not have three corners. Export it again.</source>
            <translation>{name} ist beschädigt: Facette {state:,} hat keine drei Ecken. Exportieren Sie die Datei neu.</translation>
        </message>
        <message>
            <source>{name} is cut off: it ends within triangle {state:,}. Ask for the file again.</source>
            <translation>{name} ist abgeschnitten: Die Datei endet in Dreieck {state:,}. Fordern Sie sie neu an.</translation>
        </message>
        <message>
            <source>The file lacks its closing line; the triangles before it were all read.</source>
            <translation>Der Datei fehlt die Schlusszeile; die Dreiecke davor wurden alle gelesen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/threemf_file.py</name>
        <message>
            <source>Reading {name} came to a sudden end in its own process, perhaps for lack of memory. Export it again, or as STL.</source>
            <translation>Das Lesen von {name} brach in einem eigenen Prozess plötzlich ab, vielleicht aus Mangel an Speicher. Exportieren Sie die Datei neu oder als STL.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/threemf_objects.py</name>
        <message>
            <source>The file was not saved: its bodies cannot be put into a 3MF ({error}).</source>
            <translation>Die Datei wurde nicht gespeichert: Ihre Körper lassen sich nicht in eine 3MF legen ({error}).</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/threemf_packing.py</name>
        <message>
            <source>The file was not saved: the part cannot be put into a 3MF ({error}). Save it as STL.</source>
            <translation>Die Datei wurde nicht gespeichert: Das Teil lässt sich nicht in ein 3MF legen ({error}). Speichern Sie es als STL.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/threemf_reading.py</name>
        <message>
            <source>{name} is not a valid 3MF file ({rstrip}). Export it again.</source>
            <translation>{name} ist keine gültige 3MF-Datei ({rstrip}). Exportieren Sie sie neu.</translation>
        </message>
        <message>
            <source>Placing the items</source>
            <translation>Posten werden angeordnet</translation>
        </message>
        <message>
            <source>holds no triangles</source>
            <translation>enthält keine Dreiecke</translation>
        </message>
        <message>
            <source>The file names a unit that does not exist; its numbers were taken as millimetres.</source>
            <translation>Die Datei nennt eine Einheit, die es nicht gibt; ihre Zahlen gelten als Millimeter.</translation>
        </message>
        <message>
            <source>{name} is not a valid 3MF file: {ours}. Export it again.</source>
            <translation>{name} ist keine gültige 3MF-Datei: {ours}. Exportieren Sie sie neu.</translation>
        </message>
        <message>
            <source>{name} has an empty build list, so there is nothing to print in this file. Place the part in the build and export it again.</source>
            <translation>{name} hat eine leere Bauliste, es gibt also nichts zu drucken. Legen Sie das Teil in den Bauraum und exportieren Sie die Datei neu.</translation>
        </message>
        <message>
            <source>{name} has {items} item(s), counted from 1; there is no item {item}.</source>
            <translation>{name} hat {items} Posten, ab 1 gezählt; es gibt keinen Posten {item}.</translation>
        </message>
        <message>
            <source>{name} repeats its objects {instance_count:,} times, {triangle_count:,} triangles in all, more than can be worked with. Ask for a plain export of the part.</source>
            <translation>{name} wiederholt seine Objekte {instance_count:,}-mal, zusammen {triangle_count:,} Dreiecke, mehr, als sich bearbeiten lässt. Bitten Sie um einen einfachen Export des Teils.</translation>
        </message>
        <message>
            <source>holds support objects only, no part</source>
            <translation>enthält nur Stützobjekte, kein Teil</translation>
        </message>
        <message>
            <source>{name} {reason}, so there is nothing to print. Export the part as a mesh.</source>
            <translation>{name} {reason}, es gibt also nichts zu drucken. Exportieren Sie das Teil als Netz.</translation>
        </message>
        <message>
            <source>{supports:,} support object(s) of the file are no part and were left out.</source>
            <translation>{supports:,} Stützobjekte der Datei gehören nicht zum Teil und wurden weggelassen.</translation>
        </message>
        <message>
            <source>The file holds beams beside its triangles; the beams were left out.</source>
            <translation>Die Datei enthält neben ihren Dreiecken Stäbe; die Stäbe wurden weggelassen.</translation>
        </message>
        <message>
            <source>An item of the file is flattened to nothing by its own placement.</source>
            <translation>Ein Posten der Datei wird durch seine eigene Anordnung auf nichts zusammengedrückt.</translation>
        </message>
        <message>
            <source>holds beams only, no triangles</source>
            <translation>enthält nur Stäbe, keine Dreiecke</translation>
        </message>
        <message>
            <source>{name} is not a valid 3MF file: a triangle names a corner that the file does not have. Export it again.</source>
            <translation>{name} ist keine gültige 3MF-Datei: Ein Dreieck nennt eine Ecke, die die Datei nicht hat. Exportieren Sie sie neu.</translation>
        </message>
        <message>
            <source>its build list names an object that is not in the file</source>
            <translation>ihre Bauliste nennt ein Objekt, das nicht in der Datei ist</translation>
        </message>
        <message>
            <source>an assembly in it names an object that is missing, comes later or contains itself</source>
            <translation>eine Baugruppe darin nennt ein Objekt, das fehlt, später kommt oder sich selbst enthält</translation>
        </message>
        <message>
            <source>a coordinate is not written as 3MF demands, perhaps with a decimal comma</source>
            <translation>eine Koordinate ist nicht so geschrieben, wie 3MF es verlangt, vielleicht mit Dezimalkomma</translation>
        </message>
        <message>
            <source>a triangle names a corner that the file does not have</source>
            <translation>ein Dreieck nennt eine Ecke, die die Datei nicht hat</translation>
        </message>
        <message>
            <source>it holds coordinates that are not numbers</source>
            <translation>sie enthält Koordinaten, die keine Zahlen sind</translation>
        </message>
        <message>
            <source>it has no build list</source>
            <translation>sie hat keine Bauliste</translation>
        </message>
        <message>
            <source>its package lacks the list of its parts</source>
            <translation>ihrem Paket fehlt die Liste seiner Stücke</translation>
        </message>
        <message>
            <source>it has no 3D model inside</source>
            <translation>sie enthält kein 3D-Modell</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/threemf_scene.py</name>
        <message>
            <source>{name}: its set {name_2} names a triangle that the file does not have. Export it again.</source>
            <translation>{name}: Die Menge {name_2} nennt ein Dreieck, das die Datei nicht hat. Exportieren Sie sie neu.</translation>
        </message>
        <message>
            <source>{name} puts a triangle into both Class A and Class B. Mark it in one of them.</source>
            <translation>{name} legt ein Dreieck in Klasse A und in Klasse B. Markieren Sie es in einer von beiden.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/threemf_write.py</name>
        <message>
            <source>The file was not saved: packing it came to a sudden end in its own process, perhaps for lack of memory. Close other programs and try again, or save it as STL.</source>
            <translation>Die Datei wurde nicht gespeichert: Das Packen brach in einem eigenen Prozess plötzlich ab, vielleicht aus Mangel an Speicher. Schließen Sie andere Programme und versuchen Sie es noch einmal, oder speichern Sie als STL.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/trial_store.py</name>
        <message>
            <source>{name} was written by a newer version of the program, so trials are shown but not changed in it. Update the program.</source>
            <translation>{name} wurde von einer neueren Version des Programms geschrieben; Versuche werden daraus gezeigt, aber nicht darin geändert. Aktualisieren Sie das Programm.</translation>
        </message>
        <message>
            <source>Trials that this version does not know, left aside: {count}.</source>
            <translation>Versuche, die diese Version nicht kennt und weglässt: {count}.</translation>
        </message>
        <message>
            <source>{name} is no store of trials; move it away to begin anew.</source>
            <translation>{name} ist kein Speicher für Versuche; legen Sie die Datei woandershin, um neu zu beginnen.</translation>
        </message>
        <message>
            <source>Another program is using {name}; close it there and try again.</source>
            <translation>Ein anderes Programm benutzt {name}; schließen Sie es dort und versuchen Sie es noch einmal.</translation>
        </message>
        <message>
            <source>{name} cannot be opened for writing; see who may write in the folder {folder}.</source>
            <translation>{name} lässt sich nicht zum Schreiben öffnen; sehen Sie nach, wer im Ordner {folder} schreiben darf.</translation>
        </message>
        <message>
            <source>The disk is full, so the trial was not kept in the shop; free some space.</source>
            <translation>Der Datenträger ist voll, daher wurde der Versuch nicht in der Werkstatt gespeichert; schaffen Sie Platz.</translation>
        </message>
        <message>
            <source>{name} is damaged or no store of trials ({error}); move it away to begin anew.</source>
            <translation>{name} ist beschädigt oder kein Speicher für Versuche ({error}); legen Sie die Datei woandershin, um neu zu beginnen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/files/trial_table.py</name>
        <message>
            <source>No result is written down yet; write one down first.</source>
            <translation>Noch ist kein Ergebnis aufgeschrieben; schreiben Sie zuerst eines auf.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/adaptive_layers.py</name>
        <message>
            <source>The cusp limit must lie between 0 and 5 mm.</source>
            <translation>Die Grenze der Stufenhöhe muss zwischen 0 und 5 mm liegen.</translation>
        </message>
        <message>
            <source>The thinnest layer must be at least {step_mm:g} mm and the thickest one no thinner, at most 5 mm.</source>
            <translation>Die dünnste Schicht muss mindestens {step_mm:g} mm messen und die dickste nicht weniger, höchstens 5 mm.</translation>
        </message>
        <message>
            <source>The part is too high to plan its layers one by one.</source>
            <translation>Das Teil ist zu hoch, um seine Schichten einzeln zu planen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/aims.py</name>
        <message>
            <source>No support marks on class A</source>
            <translation>Keine Stützspuren auf Klasse A</translation>
        </message>
        <message>
            <source>Few support marks on class B</source>
            <translation>Wenig Stützspuren auf Klasse B</translation>
        </message>
        <message>
            <source>Fine steps on class A</source>
            <translation>Feine Stufen auf Klasse A</translation>
        </message>
        <message>
            <source>Fine steps on class B</source>
            <translation>Feine Stufen auf Klasse B</translation>
        </message>
        <message>
            <source>Class A off the platform</source>
            <translation>Klasse A nicht auf der Plattform</translation>
        </message>
        <message>
            <source>Few support marks anywhere</source>
            <translation>Wenig Stützspuren überhaupt</translation>
        </message>
        <message>
            <source>Little support</source>
            <translation>Wenig Stützen</translation>
        </message>
        <message>
            <source>Few layers</source>
            <translation>Wenig Schichten</translation>
        </message>
        <message>
            <source>Quick to print</source>
            <translation>Schnell gedruckt</translation>
        </message>
        <message>
            <source>Stands firmly</source>
            <translation>Steht fest</translation>
        </message>
        <message>
            <source>Show side above all</source>
            <translation>Sichtseite vor allem</translation>
        </message>
        <message>
            <source>Least support</source>
            <translation>Am wenigsten Stützen</translation>
        </message>
        <message>
            <source>Quickest</source>
            <translation>Am schnellsten</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/at_rest.py</name>
        <message>
            <source>Graze</source>
            <translation>Streifstellen</translation>
        </message>
        <message>
            <source>Islands</source>
            <translation>Inseln</translation>
        </message>
        <message>
            <source>Ways out for supports</source>
            <translation>Wege hinaus für Stützen</translation>
        </message>
        <message>
            <source>Layers</source>
            <translation>Schichten</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/check_directions.py</name>
        <message>
            <source>Checking the best poses</source>
            <translation>Die besten Lagen werden geprüft</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/closed_part.py</name>
        <message>
            <source>Looking whether the part is closed</source>
            <translation>Geprüft wird, ob das Teil geschlossen ist</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/cut_pieces.py</name>
        <message>
            <source>Two faces of a piece touch along an edge of cut {number}.</source>
            <translation>Zwei Flächen eines Stücks berühren sich an einer Kante des Schnitts {number}.</translation>
        </message>
        <message>
            <source>Cutting</source>
            <translation>Wird geschnitten</translation>
        </message>
        <message>
            <source>A plane needs a point and a direction that is not zero, such as 0,0,10,0,0,1.</source>
            <translation>Eine Ebene braucht einen Punkt und eine Richtung, die nicht null ist, etwa 0,0,10,0,0,1.</translation>
        </message>
        <message>
            <source>Plane {number} does not meet the part; move it, or leave it out.</source>
            <translation>Ebene {number} trifft das Teil nicht; verschieben Sie sie oder lassen Sie sie weg.</translation>
        </message>
        <message>
            <source>Nothing of the part lies there; move the box onto the part.</source>
            <translation>Dort liegt nichts vom Teil; schieben Sie den Quader auf das Teil.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/direction_search.py</name>
        <message>
            <source>Normals and hull</source>
            <translation>Normalen und Hülle</translation>
        </message>
        <message>
            <source>Tree for rays</source>
            <translation>Suchbaum für Strahlen</translation>
        </message>
        <message>
            <source>Directions</source>
            <translation>Richtungen</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/direction_table.py</name>
        <message>
            <source>landing on the part</source>
            <translation>Stand auf dem Teil</translation>
        </message>
        <message>
            <source>graze on class A</source>
            <translation>Streifstellen auf A</translation>
        </message>
        <message>
            <source>graze on class B</source>
            <translation>Streifstellen auf B</translation>
        </message>
        <message>
            <source>graze</source>
            <translation>Streifstellen</translation>
        </message>
        <message>
            <source>terraces wider than a road on class A</source>
            <translation>Treppen breiter als eine Bahn auf Klasse A</translation>
        </message>
        <message>
            <source>terraces wider than a road on class B</source>
            <translation>Treppen breiter als eine Bahn auf Klasse B</translation>
        </message>
        <message>
            <source>terraces wider than a road</source>
            <translation>Treppen breiter als eine Bahn</translation>
        </message>
        <message>
            <source>mean cusp on class A</source>
            <translation>mittlere Stufenhöhe auf Klasse A</translation>
        </message>
        <message>
            <source>mean cusp on class B</source>
            <translation>mittlere Stufenhöhe auf Klasse B</translation>
        </message>
        <message>
            <source>class A on the platform</source>
            <translation>Klasse A auf der Plattform</translation>
        </message>
        <message>
            <source>class B on the platform</source>
            <translation>Klasse B auf der Plattform</translation>
        </message>
        <message>
            <source>on the platform</source>
            <translation>auf der Plattform</translation>
        </message>
        <message>
            <source>support volume</source>
            <translation>Stützvolumen</translation>
        </message>
        <message>
            <source>unreachable support</source>
            <translation>unerreichbare Stützen</translation>
        </message>
        <message>
            <source>height with supports</source>
            <translation>Höhe mit Stützen</translation>
        </message>
        <message>
            <source>height</source>
            <translation>Höhe</translation>
        </message>
        <message>
            <source>tip angle of the part alone</source>
            <translation>Kippwinkel des Teils allein</translation>
        </message>
        <message>
            <source>tip angle with supports</source>
            <translation>Kippwinkel mit Stützen</translation>
        </message>
        <message>
            <source>too large for the platform by</source>
            <translation>zu groß für die Plattform um</translation>
        </message>
        <message>
            <source>print time</source>
            <translation>Druckzeit</translation>
        </message>
        <message>
            <source>cost</source>
            <translation>Kosten</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/dovetails.py</name>
        <message>
            <source>a dovetail would open into class A or leave thin walls; use pins.</source>
            <translation>ein Schwalbenschwanz würde in Klasse A münden oder dünne Wände lassen; nehmen Sie Stifte.</translation>
        </message>
        <message>
            <source>they are open, so the cut face stays flat.</source>
            <translation>sie sind offen, darum bleibt die Schnittfläche eben.</translation>
        </message>
        <message>
            <source>no cut face lies between them.</source>
            <translation>zwischen ihnen liegt keine Schnittfläche.</translation>
        </message>
        <message>
            <source>the cut face has no room for a dovetail.</source>
            <translation>auf der Schnittfläche ist kein Platz für einen Schwalbenschwanz.</translation>
        </message>
        <message>
            <source>Dovetails are 1 to 100 mm wide, with a glue gap of 0 to 2 mm.</source>
            <translation>Schwalbenschwänze sind 1 bis 100 mm breit, mit einem Klebespalt von 0 bis 2 mm.</translation>
        </message>
        <message>
            <source>they are no clean solids for a dovetail.</source>
            <translation>sie sind keine sauberen Körper für einen Schwalbenschwanz.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/fault_list.py</name>
        <message>
            <source>{count:,} place</source>
            <translation>{count:,} Stelle</translation>
        </message>
        <message>
            <source>{count:,} places</source>
            <translation>{count:,} Stellen</translation>
        </message>
        <message>
            <source>They are the rims of loose surfaces: take those away, and the part is closed.</source>
            <translation>Das sind die Ränder loser Flächen: Nehmen Sie diese weg, dann ist das Teil geschlossen.</translation>
        </message>
        <message>
            <source>{kind} ones measure {least} at the finest</source>
            <translation>{kind} messen an der feinsten Stelle {least}</translation>
        </message>
        <message>
            <source>Sew the surface together in {where}: the gap is about {widest} wide.</source>
            <translation>Vernähen Sie die Oberfläche an {where}: Der Spalt ist etwa {widest} breit.</translation>
        </message>
        <message>
            <source>Close the surface in {where}, the widest about {widest} wide.</source>
            <translation>Schließen Sie die Oberfläche an {where}, die breiteste etwa {widest} breit.</translation>
        </message>
        <message>
            <source>Make them at least one road ({road}) thick, better two; the thinnest is {least}.</source>
            <translation>Machen Sie sie mindestens eine Bahn ({road}) dick, besser zwei; die dünnste misst {least}.</translation>
        </message>
        <message>
            <source>Walls hold best at whole numbers of roads ({road} each); the thinnest of these is {least}.</source>
            <translation>Wände halten am besten mit einer ganzen Zahl von Bahnen (je {road}); die dünnste hier misst {least}.</translation>
        </message>
        <message>
            <source>Widen them to more than a road ({road}) if they are to stay open; the narrowest is {least}.</source>
            <translation>Machen Sie sie breiter als eine Bahn ({road}), wenn sie offen bleiben sollen; der engste misst {least}.</translation>
        </message>
        <message>
            <source>Make lines at least a road ({road}) wide; {relief}.</source>
            <translation>Machen Sie Linien mindestens eine Bahn ({road}) breit; {relief}.</translation>
        </message>
        <message>
            <source>Ask for a file with finer facets if this side shows: these lie up to {max} inside the curve.</source>
            <translation>Bitten Sie um eine Datei mit feineren Facetten, wenn diese Seite sichtbar ist: Diese liegen bis zu {max} innerhalb der Kurve.</translation>
        </message>
        <message>
            <source>raised</source>
            <translation>erhabene</translation>
        </message>
        <message>
            <source>sunk</source>
            <translation>vertiefte</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/fault_verdict.py</name>
        <message>
            <source>; {faults} do no harm</source>
            <translation>; {faults} schaden nicht</translation>
        </message>
        <message>
            <source>The surface is closed, faces outwards and nowhere crosses itself{also}.</source>
            <translation>Die Oberfläche ist geschlossen, zeigt nach außen und kreuzt sich nirgends{also}.</translation>
        </message>
        <message>
            <source>The surface encloses no volume, so there is nothing to print.</source>
            <translation>Die Oberfläche umschließt kein Volumen, es gibt also nichts zu drucken.</translation>
        </message>
        <message>
            <source>a hole</source>
            <translation>ein Loch</translation>
        </message>
        <message>
            <source>{holes:,} holes</source>
            <translation>{holes:,} Löcher</translation>
        </message>
        <message>
            <source>The surface has {where} up to {widest} wide; layers there stay open.</source>
            <translation>Die Oberfläche hat {where}, bis zu {widest} breit; Schichten dort bleiben offen.</translation>
        </message>
        <message>
            <source>Much of the part has walls thinner than one road, which is not printed.</source>
            <translation>Ein großer Teil hat Wände dünner als eine Bahn, und die werden nicht gedruckt.</translation>
        </message>
        <message>
            <source>It will probably print, but look first at the layers with {where}.</source>
            <translation>Es wird wohl gelingen, aber sehen Sie sich zuerst die Schichten damit an: {where}.</translation>
        </message>
        <message>
            <source>sound</source>
            <translation>in Ordnung</translation>
        </message>
        <message>
            <source>Sound</source>
            <translation>In Ordnung</translation>
        </message>
        <message>
            <source>printable with care</source>
            <translation>mit Vorsicht druckbar</translation>
        </message>
        <message>
            <source>Printable with care</source>
            <translation>Mit Vorsicht druckbar</translation>
        </message>
        <message>
            <source>will fail</source>
            <translation>wird misslingen</translation>
        </message>
        <message>
            <source>Will fail</source>
            <translation>Wird misslingen</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/fault_words.py</name>
        <message>
            <source>{first} and {last}</source>
            <translation>{first} und {last}</translation>
        </message>
        <message>
            <source>The outline of the layers there does not close: the machine fills the wrong side, or leaves a gap in the wall.</source>
            <translation>Der Umriss der Schichten schließt sich dort nicht: Die Maschine füllt die falsche Seite oder lässt eine Lücke in der Wand.</translation>
        </message>
        <message>
            <source>edge with more than two faces</source>
            <translation>Kante mit mehr als zwei Flächen</translation>
        </message>
        <message>
            <source>edges with more than two faces</source>
            <translation>Kanten mit mehr als zwei Flächen</translation>
        </message>
        <message>
            <source>Inside and outside are not clear along these edges; walls may be printed twice or left out there.</source>
            <translation>Innen und außen sind an diesen Kanten nicht klar; Wände werden dort vielleicht doppelt gedruckt oder weggelassen.</translation>
        </message>
        <message>
            <source>Look for a wall or patch that is there twice and take one away; bodies that meet in a single edge should overlap a little instead.</source>
            <translation>Suchen Sie eine Wand oder einen Flicken, der doppelt da ist, und nehmen Sie einen weg; Körper, die sich nur in einer Kante treffen, sollten sich etwas überlappen.</translation>
        </message>
        <message>
            <source>corner in which surfaces meet only in a point</source>
            <translation>Ecke, in der sich Flächen nur in einem Punkt treffen</translation>
        </message>
        <message>
            <source>corners in which surfaces meet only in a point</source>
            <translation>Ecken, in denen sich Flächen nur in einem Punkt treffen</translation>
        </message>
        <message>
            <source>What hangs together in a point only is not joined in the print and breaks off.</source>
            <translation>Was nur in einem Punkt zusammenhängt, ist im Druck nicht verbunden und bricht ab.</translation>
        </message>
        <message>
            <source>Let the bodies overlap a little where they meet, or part them.</source>
            <translation>Lassen Sie die Körper dort etwas überlappen oder trennen Sie sie.</translation>
        </message>
        <message>
            <source>edge between faces turned against each other</source>
            <translation>Kante zwischen gegeneinander gewendeten Flächen</translation>
        </message>
        <message>
            <source>edges between faces turned against each other</source>
            <translation>Kanten zwischen gegeneinander gewendeten Flächen</translation>
        </message>
        <message>
            <source>The wrong side may be taken for the inside and stay hollow.</source>
            <translation>Die falsche Seite gilt vielleicht als innen und bleibt hohl.</translation>
        </message>
        <message>
            <source>Turn the faces so that all of them face outwards.</source>
            <translation>Wenden Sie die Flächen so, dass alle nach außen zeigen.</translation>
        </message>
        <message>
            <source>face that crosses its own shell</source>
            <translation>Fläche, die die eigene Schale kreuzt</translation>
        </message>
        <message>
            <source>faces that cross their own shell</source>
            <translation>Flächen, die die eigene Schale kreuzen</translation>
        </message>
        <message>
            <source>Outlines of the layers there run through themselves; small holes or doubled roads are likely.</source>
            <translation>Umrisse der Schichten laufen dort durch sich selbst; kleine Löcher oder doppelte Bahnen sind wahrscheinlich.</translation>
        </message>
        <message>
            <source>Smooth out the fold, or unite the crossing parts: inside and outside are not clear where the surface crosses itself.</source>
            <translation>Glätten Sie die Falte oder vereinigen Sie die kreuzenden Stücke: Innen und außen sind nicht klar, wo sich die Oberfläche kreuzt.</translation>
        </message>
        <message>
            <source>pair of shells that overlap</source>
            <translation>Paar überlappender Schalen</translation>
        </message>
        <message>
            <source>pairs of shells that overlap</source>
            <translation>Paare überlappender Schalen</translation>
        </message>
        <message>
            <source>Where the shells overlap, walls run through the inside of the part, or the common part is left hollow.</source>
            <translation>Wo sich die Schalen überlappen, laufen Wände durch das Innere des Teils, oder das gemeinsame Stück bleibt hohl.</translation>
        </message>
        <message>
            <source>Unite the shells into one body.</source>
            <translation>Vereinigen Sie die Schalen zu einem Körper.</translation>
        </message>
        <message>
            <source>inside-out shell</source>
            <translation>nach innen gewendete Schale</translation>
        </message>
        <message>
            <source>inside-out shells</source>
            <translation>nach innen gewendete Schalen</translation>
        </message>
        <message>
            <source>What faces inwards may be printed as a hollow or left out.</source>
            <translation>Was nach innen zeigt, wird vielleicht als Hohlraum gedruckt oder weggelassen.</translation>
        </message>
        <message>
            <source>Turn these shells over.</source>
            <translation>Wenden Sie diese Schalen.</translation>
        </message>
        <message>
            <source>face that is there twice</source>
            <translation>doppelte Fläche</translation>
        </message>
        <message>
            <source>faces that are there twice</source>
            <translation>doppelte Flächen</translation>
        </message>
        <message>
            <source>The same wall is laid twice there, or not at all, as the two copies cancel out.</source>
            <translation>Dieselbe Wand wird dort zweimal gelegt oder gar nicht, weil sich die beiden aufheben.</translation>
        </message>
        <message>
            <source>Take one of each pair away: the same surface printed twice can confuse the filling.</source>
            <translation>Nehmen Sie von jedem Paar eine weg: Dieselbe Fläche zweimal kann die Füllung verwirren.</translation>
        </message>
        <message>
            <source>face lying flat on another that faces the same way</source>
            <translation>Fläche flach auf einer anderen gleicher Richtung</translation>
        </message>
        <message>
            <source>faces lying flat on others that face the same way</source>
            <translation>Flächen flach auf anderen gleicher Richtung</translation>
        </message>
        <message>
            <source>A patch of the surface is there twice; the same wall is laid twice there, or not at all.</source>
            <translation>Ein Flicken der Oberfläche ist doppelt da; dieselbe Wand wird dort zweimal gelegt oder gar nicht.</translation>
        </message>
        <message>
            <source>Take one of the two patches away.</source>
            <translation>Nehmen Sie einen der beiden Flicken weg.</translation>
        </message>
        <message>
            <source>face back to back with another</source>
            <translation>Fläche Rücken an Rücken mit einer anderen</translation>
        </message>
        <message>
            <source>faces back to back with others</source>
            <translation>Flächen Rücken an Rücken mit anderen</translation>
        </message>
        <message>
            <source>A sheet or a wall without thickness cannot be printed: it is left out, or parts the filling in two.</source>
            <translation>Eine Haut oder Wand ohne Dicke lässt sich nicht drucken: Sie wird weggelassen oder teilt die Füllung in zwei.</translation>
        </message>
        <message>
            <source>Take both sides away if they part a solid in two, or give the sheet a thickness.</source>
            <translation>Nehmen Sie beide Seiten weg, wenn sie einen Körper zerteilen, oder geben Sie der Haut eine Dicke.</translation>
        </message>
        <message>
            <source>A surface without thickness is left out of the print, or spoils the layers it reaches.</source>
            <translation>Eine Fläche ohne Dicke fehlt im Druck oder verdirbt die Schichten, die sie erreicht.</translation>
        </message>
        <message>
            <source>Take it away if it is a leftover, or give it a thickness.</source>
            <translation>Nehmen Sie sie weg, wenn sie ein Überbleibsel ist, oder geben Sie ihr eine Dicke.</translation>
        </message>
        <message>
            <source>sheet without thickness</source>
            <translation>Haut ohne Dicke</translation>
        </message>
        <message>
            <source>sheets without thickness</source>
            <translation>Häute ohne Dicke</translation>
        </message>
        <message>
            <source>A sheet without thickness is left out of the print.</source>
            <translation>Eine Haut ohne Dicke fehlt im Druck.</translation>
        </message>
        <message>
            <source>face that touches its own shell</source>
            <translation>Fläche, die die eigene Schale berührt</translation>
        </message>
        <message>
            <source>faces that touch their own shell</source>
            <translation>Flächen, die die eigene Schale berühren</translation>
        </message>
        <message>
            <source>What only touches is joined by half a road or less; a hinge or a gap there may stick, a joint may come apart.</source>
            <translation>Was sich nur berührt, hält mit höchstens einer halben Bahn; ein Scharnier oder Spalt dort kann verkleben, eine Verbindung aufgehen.</translation>
        </message>
        <message>
            <source>Look whether it is to be joined or apart there, and let it overlap or leave a gap.</source>
            <translation>Entscheiden Sie, ob es dort verbunden oder getrennt sein soll, und lassen Sie es überlappen oder einen Spalt frei.</translation>
        </message>
        <message>
            <source>loose speck</source>
            <translation>loser Krümel</translation>
        </message>
        <message>
            <source>loose specks</source>
            <translation>lose Krümel</translation>
        </message>
        <message>
            <source>It touches nothing and stands on the platform beside the part; it comes loose and may be dragged along.</source>
            <translation>Er berührt nichts und steht neben dem Teil auf der Bauplattform; er löst sich und wird vielleicht mitgeschleift.</translation>
        </message>
        <message>
            <source>Remove them if they are leftovers.</source>
            <translation>Entfernen Sie sie, wenn es Überbleibsel sind.</translation>
        </message>
        <message>
            <source>place with walls thinner than one road</source>
            <translation>Stelle mit Wänden dünner als eine Bahn</translation>
        </message>
        <message>
            <source>places with walls thinner than one road</source>
            <translation>Stellen mit Wänden dünner als eine Bahn</translation>
        </message>
        <message>
            <source>The wall is left out, or printed as one road, wider than drawn.</source>
            <translation>Die Wand wird weggelassen oder als eine Bahn gedruckt, breiter als gezeichnet.</translation>
        </message>
        <message>
            <source>place with walls thinner than two roads</source>
            <translation>Stelle mit Wänden dünner als zwei Bahnen</translation>
        </message>
        <message>
            <source>places with walls thinner than two roads</source>
            <translation>Stellen mit Wänden dünner als zwei Bahnen</translation>
        </message>
        <message>
            <source>The wall is printed as one road with a gap beside it, or as two that press into each other.</source>
            <translation>Die Wand wird als eine Bahn mit einem Spalt daneben gedruckt oder als zwei, die sich ineinander drücken.</translation>
        </message>
        <message>
            <source>gap narrower than a road</source>
            <translation>Spalt enger als eine Bahn</translation>
        </message>
        <message>
            <source>gaps narrower than a road</source>
            <translation>Spalte enger als eine Bahn</translation>
        </message>
        <message>
            <source>The gap closes: what should move sticks together.</source>
            <translation>Der Spalt schließt sich: Was beweglich sein soll, klebt zusammen.</translation>
        </message>
        <message>
            <source>place with relief finer than a road</source>
            <translation>Stelle mit Relief feiner als eine Bahn</translation>
        </message>
        <message>
            <source>places with relief finer than a road</source>
            <translation>Stellen mit Relief feiner als eine Bahn</translation>
        </message>
        <message>
            <source>The print loses this relief: raised lines are left out, sunk ones close.</source>
            <translation>Der Druck verliert dieses Relief: Erhabene Linien fehlen, vertiefte schließen sich.</translation>
        </message>
        <message>
            <source>step lower than a layer</source>
            <translation>Stufe niedriger als eine Schicht</translation>
        </message>
        <message>
            <source>steps lower than a layer</source>
            <translation>Stufen niedriger als eine Schicht</translation>
        </message>
        <message>
            <source>The step vanishes, or becomes a whole layer high.</source>
            <translation>Die Stufe verschwindet oder wird eine ganze Schicht hoch.</translation>
        </message>
        <message>
            <source>Make it a whole number of layers high, take thinner layers, or turn the part so that the relief stands upright.</source>
            <translation>Machen Sie sie eine ganze Zahl von Schichten hoch, nehmen Sie dünnere Schichten oder drehen Sie das Teil so, dass das Relief aufrecht steht.</translation>
        </message>
        <message>
            <source>face coarser than a curve needs</source>
            <translation>Fläche gröber, als eine Kurve braucht</translation>
        </message>
        <message>
            <source>faces coarser than a curve needs</source>
            <translation>Flächen gröber, als eine Kurve braucht</translation>
        </message>
        <message>
            <source>The flats of the curve show in the print.</source>
            <translation>Die Facetten der Kurve sind im Druck zu sehen.</translation>
        </message>
        <message>
            <source>sudden jump of section</source>
            <translation>plötzlicher Sprung des Querschnitts</translation>
        </message>
        <message>
            <source>sudden jumps of section</source>
            <translation>plötzliche Sprünge des Querschnitts</translation>
        </message>
        <message>
            <source>The walls may show a line at this height, as the layers above cool and shrink otherwise than those below.</source>
            <translation>Die Wände zeigen in dieser Höhe vielleicht eine Linie, weil die Schichten darüber anders abkühlen und schrumpfen als die darunter.</translation>
        </message>
        <message>
            <source>If the side shows, turn the part or round the ledge.</source>
            <translation>Ist die Seite sichtbar, drehen Sie das Teil oder runden Sie den Absatz.</translation>
        </message>
        <message>
            <source>pair of shells that touch</source>
            <translation>Paar sich berührender Schalen</translation>
        </message>
        <message>
            <source>pairs of shells that touch</source>
            <translation>Paare sich berührender Schalen</translation>
        </message>
        <message>
            <source>Where they touch, the shells are printed side by side and stick to each other.</source>
            <translation>Wo sie sich berühren, werden die Schalen nebeneinander gedruckt und kleben aneinander.</translation>
        </message>
        <message>
            <source>No harm as a rule; unite the shells if they are to be one body.</source>
            <translation>In der Regel kein Schaden; vereinigen Sie die Schalen, wenn sie ein Körper sein sollen.</translation>
        </message>
        <message>
            <source>sliver of a face</source>
            <translation>Flächensplitter</translation>
        </message>
        <message>
            <source>slivers of faces</source>
            <translation>Flächensplitter</translation>
        </message>
        <message>
            <source>They are finer than the machine moves and do not show.</source>
            <translation>Sie sind feiner, als die Maschine fährt, und nicht zu sehen.</translation>
        </message>
        <message>
            <source>They do no harm by themselves; mending removes them.</source>
            <translation>Für sich schaden sie nicht; das Ausbessern entfernt sie.</translation>
        </message>
        <message>
            <source>face without area</source>
            <translation>Fläche ohne Inhalt</translation>
        </message>
        <message>
            <source>faces without area</source>
            <translation>Flächen ohne Inhalt</translation>
        </message>
        <message>
            <source>They do not show in the print.</source>
            <translation>Im Druck sind sie nicht zu sehen.</translation>
        </message>
        <message>
            <source>They do no harm to the print; mending removes them.</source>
            <translation>Sie schaden dem Druck nicht; das Ausbessern entfernt sie.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/hard_limits.py</name>
        <message>
            <source>fits the platform</source>
            <translation>passt auf die Plattform</translation>
        </message>
        <message>
            <source>The part does not fit: the nearest direction is still {by} too large.</source>
            <translation>Das Teil passt nicht: Die günstigste Richtung ist immer noch {by} zu groß.</translation>
        </message>
        <message>
            <source>stands</source>
            <translation>steht</translation>
        </message>
        <message>
            <source>The part does not stand: at best its weight lies {by} outside its foot.</source>
            <translation>Das Teil steht nicht: Sein Gewicht liegt im besten Fall {by} außerhalb seines Fußes.</translation>
        </message>
        <message>
            <source>no support touches class A</source>
            <translation>keine Stütze berührt Klasse A</translation>
        </message>
        <message>
            <source>Supports touch class A in every direction: the least found is {by}.</source>
            <translation>Stützen berühren Klasse A in jeder Richtung: Am wenigsten sind {by}.</translation>
        </message>
        <message>
            <source>no unreachable support</source>
            <translation>keine unerreichbaren Stützen</translation>
        </message>
        <message>
            <source>Some support can be reached from nowhere in every direction: the least found is {by}.</source>
            <translation>In jeder Richtung sind manche Stützen von nirgends zu erreichen: Am wenigsten sind {by}.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/keep_clear.py</name>
        <message>
            <source>Looking beside class A</source>
            <translation>Neben Klasse A wird nachgesehen</translation>
        </message>
        <message>
            <source>The space to keep clear reaches 0.2 to 20 mm from class A.</source>
            <translation>Der freizuhaltende Raum reicht 0,2 bis 20 mm von Klasse A weg.</translation>
        </message>
        <message>
            <source>The part is not closed, so no space can be kept clear beside it; mend it first.</source>
            <translation>Das Teil ist nicht geschlossen, darum lässt sich neben ihm kein Raum freihalten; bessern Sie es zuerst aus.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/laid_planes.py</name>
        <message>
            <source>A slab needs two heights above the platform, the lower one first.</source>
            <translation>Eine Scheibe braucht zwei Höhen über der Plattform, die untere zuerst.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/layer_profile.py</name>
        <message>
            <source>The layer height must be larger than 0 mm.</source>
            <translation>Die Schichthöhe muss größer als 0 mm sein.</translation>
        </message>
        <message>
            <source>The part would have {layers:,} layers; choose a larger layer height.</source>
            <translation>Das Teil hätte {layers:,} Schichten; wählen Sie eine größere Schichthöhe.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/measure_pose.py</name>
        <message>
            <source>Undersides and terraces</source>
            <translation>Unterseiten und Treppenstufen</translation>
        </message>
        <message>
            <source>Standing</source>
            <translation>Standfestigkeit</translation>
        </message>
        <message>
            <source>Supports</source>
            <translation>Stützen</translation>
        </message>
        <message>
            <source>Support columns</source>
            <translation>Stützsäulen</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/mend/drop_bits.py</name>
        <message>
            <source>Looking for loose bits</source>
            <translation>Lose Stücke werden gesucht</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/mend/drop_degenerate.py</name>
        <message>
            <source>Dropping faces without area</source>
            <translation>Flächen ohne Inhalt werden entfernt</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/mend/drop_doubled.py</name>
        <message>
            <source>Looking for doubled faces</source>
            <translation>Doppelte Flächen werden gesucht</translation>
        </message>
        <message>
            <source>Dropping doubled faces</source>
            <translation>Doppelte Flächen werden entfernt</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/mend/enclosed_lattice.py</name>
        <message>
            <source>Looking for what the surface encloses</source>
            <translation>Gesucht wird, was die Oberfläche umschließt</translation>
        </message>
        <message>
            <source>Closing what is open</source>
            <translation>Offenes wird geschlossen</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/mend/faults_left.py</name>
        <message>
            <source>Looking for what is left</source>
            <translation>Gesucht wird, was übrig ist</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/mend/fill_holes.py</name>
        <message>
            <source>Looking for holes</source>
            <translation>Löcher werden gesucht</translation>
        </message>
        <message>
            <source>Filling holes</source>
            <translation>Löcher werden gefüllt</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/mend/lattice_surface.py</name>
        <message>
            <source>Laying the new skin</source>
            <translation>Neue Haut wird gelegt</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/mend/merge_near.py</name>
        <message>
            <source>Merging vertices</source>
            <translation>Ecken werden verschmolzen</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/mend/part_bodies.py</name>
        <message>
            <source>Parting bodies at shared edges</source>
            <translation>Körper werden an gemeinsamen Kanten getrennt</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/mend/re_skin.py</name>
        <message>
            <source>A new skin of this part at {resolution_mm:g} mm is out of reach; choose a resolution from {finest:g} to {size:.3g} mm, such as {mesh:g} mm.</source>
            <translation>Eine neue Haut dieses Teils mit {resolution_mm:g} mm ist nicht zu schaffen; wählen Sie eine Auflösung von {finest:g} bis {size:.3g} mm, etwa {mesh:g} mm.</translation>
        </message>
        <message>
            <source>This surface is a sheet: it encloses nothing that shows at {resolution_mm:g} mm. Give it a wall with the step thicken-sheet instead.</source>
            <translation>Diese Oberfläche ist eine Haut: Sie umschließt nichts, was bei {resolution_mm:g} mm zu sehen ist. Geben Sie ihr stattdessen mit dem Schritt thicken-sheet eine Wand.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/mend/recut_patches.py</name>
        <message>
            <source>Looking for doubled patches</source>
            <translation>Doppelte Flicken werden gesucht</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/mend/sew_seams.py</name>
        <message>
            <source>Sewing seams</source>
            <translation>Nähte werden geschlossen</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/mend/steps.py</name>
        <message>
            <source>There is no step {name}; choose from {known}.</source>
            <translation>Einen Schritt {name} gibt es nicht; wählen Sie aus {known}.</translation>
        </message>
        <message>
            <source>Let corners that lie in one place use one vertex.</source>
            <translation>Ecken, die an einer Stelle liegen, zu einer machen.</translation>
        </message>
        <message>
            <source>Drop faces without area; the surface stays closed.</source>
            <translation>Flächen ohne Inhalt entfernen; die Oberfläche bleibt geschlossen.</translation>
        </message>
        <message>
            <source>Drop faces that are there twice.</source>
            <translation>Doppelte Flächen entfernen.</translation>
        </message>
        <message>
            <source>Wind all faces alike and turn bodies outward, cavities inward.</source>
            <translation>Alle Flächen gleich umlaufen und Körper nach außen, Hohlräume nach innen wenden.</translation>
        </message>
        <message>
            <source>Sew open edges that run along each other, closer than a crack that prints shut.</source>
            <translation>Offene Kanten vernähen, die enger nebeneinander laufen als ein Riss, der sich beim Drucken schließt.</translation>
        </message>
        <message>
            <source>Close small flat holes.</source>
            <translation>Kleine flache Löcher schließen.</translation>
        </message>
        <message>
            <source>Part bodies that hang together in an edge, by a hair that does not print.</source>
            <translation>Körper trennen, die in einer Kante zusammenhängen, um eine Haaresbreite, die nicht gedruckt wird.</translation>
        </message>
        <message>
            <source>Take away loose bits that touch nothing, and surfaces lost inside the material.</source>
            <translation>Lose Stücke wegnehmen, die nichts berühren, und Flächen, die im Material verloren sind.</translation>
        </message>
        <message>
            <source>Sew wider seams; corners move by up to the width of the seam.</source>
            <translation>Breitere Nähte schließen; Ecken wandern bis zur Breite der Naht.</translation>
        </message>
        <message>
            <source>Take one side of a sheet that is doubled back, so that it can be thickened.</source>
            <translation>Von einer doppelt gelegten Haut eine Seite wegnehmen, damit sie eine Dicke bekommen kann.</translation>
        </message>
        <message>
            <source>Give the open sheet a wall, half of it to either side.</source>
            <translation>Der offenen Haut eine Wand geben, zur Hälfte nach jeder Seite.</translation>
        </message>
        <message>
            <source>Close all holes, flat ones flat and curved ones smoothly.</source>
            <translation>Alle Löcher schließen, flache flach und gewölbte glatt.</translation>
        </message>
        <message>
            <source>Cut out folds where the surface crosses itself, and close them smoothly.</source>
            <translation>Falten ausschneiden, in denen sich die Oberfläche kreuzt, und glatt schließen.</translation>
        </message>
        <message>
            <source>Unite bodies that overlap or touch into one.</source>
            <translation>Überlappende oder sich berührende Körper zu einem vereinigen.</translation>
        </message>
        <message>
            <source>Lay a new skin around all that is enclosed; edges lose up to the resolution.</source>
            <translation>Eine neue Haut um alles Umschlossene legen; Kanten verlieren bis zur Auflösung.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/mend/thicken_sheet.py</name>
        <message>
            <source>Thickening the sheet</source>
            <translation>Haut bekommt eine Dicke</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/mend/turn_outward.py</name>
        <message>
            <source>Turning shells outward</source>
            <translation>Schalen werden nach außen gewendet</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/mend/unite_shells.py</name>
        <message>
            <source>Uniting bodies</source>
            <translation>Körper werden vereinigt</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/mesh_faults.py</name>
        <message>
            <source>Looking along the edges</source>
            <translation>Kanten werden durchgesehen</translation>
        </message>
        <message>
            <source>Looking at every face</source>
            <translation>Jede Fläche wird angesehen</translation>
        </message>
        <message>
            <source>Telling the shells apart</source>
            <translation>Schalen werden unterschieden</translation>
        </message>
        <message>
            <source>Looking at every corner</source>
            <translation>Jede Ecke wird angesehen</translation>
        </message>
        <message>
            <source>Looking for coarse curves</source>
            <translation>Grobe Kurven werden gesucht</translation>
        </message>
        <message>
            <source>Looking for faces that cross</source>
            <translation>Kreuzende Flächen werden gesucht</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/nearest_face.py</name>
        <message>
            <source>Looking for the nearest surface</source>
            <translation>Die nächste Oberfläche wird gesucht</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/plain_measures.py</name>
        <message>
            <source>First numbers, from a coarse grid. The exact ones follow when the measuring code is ready (once for each installation, some minutes).</source>
            <translation>Erste Zahlen, aus einem groben Raster. Die genauen folgen, sobald der Messcode fertig ist (einmal je Installation, einige Minuten).</translation>
        </message>
        <message>
            <source>Bridges are not in the first numbers; all that overhangs counts as touch.</source>
            <translation>Brücken sind in den ersten Zahlen nicht enthalten; alles Überhängende zählt als Stützkontakt.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/plain_part.py</name>
        <message>
            <source>1 face is</source>
            <translation>1 Fläche ist</translation>
        </message>
        <message>
            <source>{rewound} faces are</source>
            <translation>{rewound} Flächen sind</translation>
        </message>
        <message>
            <source>{whose} wound against the rest of the surface; measured the right way round.</source>
            <translation>{whose} gegen die übrige Oberfläche gewendet; gemessen wird richtig herum.</translation>
        </message>
        <message>
            <source>The surface is not closed everywhere; what needs an inside, such as supports and volume, is an estimate.</source>
            <translation>Die Oberfläche ist nicht überall geschlossen; was ein Inneres braucht, etwa Stützen und Volumen, ist geschätzt.</translation>
        </message>
        <message>
            <source>Shells touch or overlap; in these first numbers their overlap is sampled.</source>
            <translation>Schalen berühren oder überlappen sich; in diesen ersten Zahlen ist ihre Überlappung nur aus Stichproben bestimmt.</translation>
        </message>
        <message>
            <source>1 shell faces the wrong way in the file; it is measured as what it encloses.</source>
            <translation>1 Schale zeigt in der Datei falsch herum; gemessen wird, was sie umschließt.</translation>
        </message>
        <message>
            <source>{inward} shells face the wrong way in the file; they are measured as what they enclose.</source>
            <translation>{inward} Schalen zeigen in der Datei falsch herum; gemessen wird, was sie umschließen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/pose.py</name>
        <message>
            <source>The build direction needs three numbers that are not all zero, such as 0,0,1.</source>
            <translation>Die Baurichtung braucht drei Zahlen, die nicht alle null sind, etwa 0,0,1.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/pose_faults.py</name>
        <message>
            <source>It touches nothing, so that its first layer is laid in mid-air and falls down as a loose string.</source>
            <translation>Sie berührt nichts, daher wird ihre erste Schicht in die Luft gelegt und fällt als loser Faden herunter.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/pose_words.py</name>
        <message>
            <source>the quickest of these</source>
            <translation>die schnellste von diesen</translation>
        </message>
        <message>
            <source>{volume} of support, {more} more than the least</source>
            <translation>{volume} Stützen, {more} mehr als im besten Fall</translation>
        </message>
        <message>
            <source>{hours} h {minutes:02d} min longer than the quickest of these</source>
            <translation>{hours} h {minutes:02d} min länger als die schnellste von diesen</translation>
        </message>
        <message>
            <source>{share} of A lies on the platform</source>
            <translation>{share} von A liegen auf der Plattform</translation>
        </message>
        <message>
            <source>{volume} of support, the least of all</source>
            <translation>{volume} Stützen, so wenig wie sonst nirgends</translation>
        </message>
        <message>
            <source>{more:,} layers more than the lowest</source>
            <translation>{more:,} Schichten mehr als die niedrigste Lage</translation>
        </message>
        <message>
            <source>stands on a flat face</source>
            <translation>steht auf einer ebenen Fläche</translation>
        </message>
        <message>
            <source>{minutes} min longer than the quickest of these</source>
            <translation>{minutes} min länger als die schnellste von diesen</translation>
        </message>
        <message>
            <source>hardly any support</source>
            <translation>kaum Stützen</translation>
        </message>
        <message>
            <source>no support at all</source>
            <translation>gar keine Stützen</translation>
        </message>
        <message>
            <source>the fewest layers of all</source>
            <translation>die wenigsten Schichten von allen</translation>
        </message>
        <message>
            <source>1 layer more than the lowest</source>
            <translation>1 Schicht mehr als die niedrigste Lage</translation>
        </message>
        <message>
            <source>the part</source>
            <translation>dem Teil</translation>
        </message>
        <message>
            <source>no support touches {name}</source>
            <translation>an {name} liegt keine Stütze an</translation>
        </message>
        <message>
            <source>they pass close to {share} of {name}</source>
            <translation>sie streifen {share} von {name}</translation>
        </message>
        <message>
            <source>no terraces wider than a road on {name}</source>
            <translation>auf {name} keine Treppen breiter als eine Bahn</translation>
        </message>
        <message>
            <source>terraces wider than a road on {share} of {name}</source>
            <translation>auf {share} von {name} Treppen breiter als eine Bahn</translation>
        </message>
        <message>
            <source>no support touches {name} but {share} bear some</source>
            <translation>an {name} liegt keine Stütze an, aber auf {share} stehen welche</translation>
        </message>
        <message>
            <source>supports touch {share} of {name}</source>
            <translation>Stützen liegen an {share} von {name} an</translation>
        </message>
        <message>
            <source>supports touch {share} of {name} and stand on {landing}</source>
            <translation>Stützen liegen an {share} von {name} an und stehen auf {landing}</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/prepared_part.py</name>
        <message>
            <source>Finding neighbours</source>
            <translation>Nachbarn werden gesucht</translation>
        </message>
        <message>
            <source>Finding shells</source>
            <translation>Schalen werden gesucht</translation>
        </message>
        <message>
            <source>Finding smooth runs</source>
            <translation>Glatte Bereiche werden gesucht</translation>
        </message>
        <message>
            <source>Uniting shells</source>
            <translation>Schalen werden vereinigt</translation>
        </message>
        <message>
            <source>{faces} wound against the rest of the surface; measured the right way round.</source>
            <translation>{faces} gegen die übrige Oberfläche gewendet; gemessen wird richtig herum.</translation>
        </message>
        <message>
            <source>Shells that touch or overlap are not all closed; their overlap is an estimate.</source>
            <translation>Schalen, die sich berühren oder überlappen, sind nicht alle geschlossen; ihre Überlappung ist geschätzt.</translation>
        </message>
        <message>
            <source>{inward_shells} shells face the wrong way in the file; they are measured as what they enclose.</source>
            <translation>{inward_shells} Schalen zeigen in der Datei falsch herum; gemessen wird, was sie umschließen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/print_settings.py</name>
        <message>
            <source>The layer height must lie between 0.01 and 5 mm.</source>
            <translation>Die Schichthöhe muss zwischen 0,01 und 5 mm liegen.</translation>
        </message>
        <message>
            <source>The support limit must lie between 0° and 90°.</source>
            <translation>Der Stützwinkel muss zwischen 0° und 90° liegen.</translation>
        </message>
        <message>
            <source>The road width must lie between 0.05 and 10 mm.</source>
            <translation>Die Bahnbreite muss zwischen 0,05 und 10 mm liegen.</translation>
        </message>
        <message>
            <source>The bridge limit must lie between 0 and 200 mm.</source>
            <translation>Die Brückengrenze muss zwischen 0 und 200 mm liegen.</translation>
        </message>
        <message>
            <source>The clearance must lie between 0 and 10 mm.</source>
            <translation>Der Abstand muss zwischen 0 und 10 mm liegen.</translation>
        </message>
        <message>
            <source>The width of visible terraces must lie between 0 and 20 mm.</source>
            <translation>Die Breite sichtbarer Treppenstufen muss zwischen 0 und 20 mm liegen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/registration_pins.py</name>
        <message>
            <source>Pieces {one} and {other}: {sentence}</source>
            <translation>Stücke {one} und {other}: {sentence}</translation>
        </message>
        <message>
            <source>the cut face has no room for a pin; it stays flat.</source>
            <translation>auf der Schnittfläche ist kein Platz für einen Stift; sie bleibt eben.</translation>
        </message>
        <message>
            <source>the cut face has room for one pin only.</source>
            <translation>auf der Schnittfläche ist nur für einen Stift Platz.</translation>
        </message>
        <message>
            <source>Pins are 0.5 to 50 mm thick and 0.5 to 100 mm long.</source>
            <translation>Passstifte sind 0,5 bis 50 mm dick und 0,5 bis 100 mm lang.</translation>
        </message>
        <message>
            <source>The glue gap is 0 to 2 mm, the wall around a hole 0 to 20 mm.</source>
            <translation>Der Klebespalt ist 0 bis 2 mm weit, die Wand um ein Loch 0 bis 20 mm dick.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/simplify_solid.py</name>
        <message>
            <source>Making the part small enough to send</source>
            <translation>Das Teil wird klein genug zum Verschicken gemacht</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/specimens/bridge_ladder.py</name>
        <message>
            <source>spans in mm</source>
            <translation>Spannweiten in mm</translation>
        </message>
        <message>
            <source>How wide a gap does a level underside cross without support?</source>
            <translation>Wie weit überspannt eine waagrechte Unterseite eine Lücke ohne Stützen?</translation>
        </message>
        <message>
            <source>beam level, sagging or torn</source>
            <translation>Balken eben, durchhängend oder gerissen</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/specimens/catalogue.py</name>
        <message>
            <source>Inclination fan</source>
            <translation>Neigungsfächer</translation>
        </message>
        <message>
            <source>Bridge ladder</source>
            <translation>Brückenleiter</translation>
        </message>
        <message>
            <source>Terrace wedge</source>
            <translation>Treppenkeil</translation>
        </message>
        <message>
            <source>Pair release piece</source>
            <translation>Ablöseprobe des Paars</translation>
        </message>
        <message>
            <source>Tall slender fins</source>
            <translation>Hohe schlanke Rippen</translation>
        </message>
        <message>
            <source>Nozzle-offset check</source>
            <translation>Düsenversatz-Probe</translation>
        </message>
        <message>
            <source>There is no specimen {kind}; choose from {known}.</source>
            <translation>Einen Probekörper {kind} gibt es nicht; wählen Sie aus {known}.</translation>
        </message>
        <message>
            <source>The offset check takes one step, such as 0.05.</source>
            <translation>Die Versatzprobe braucht einen einzigen Schritt, etwa 0.05.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/specimens/inclination_fan.py</name>
        <message>
            <source>angles in degrees</source>
            <translation>Winkel in Grad</translation>
        </message>
        <message>
            <source>From which inclination on does an underside hold itself up cleanly?</source>
            <translation>Ab welcher Neigung trägt sich eine Unterseite sauber selbst?</translation>
        </message>
        <message>
            <source>underside clean, rough or drooping</source>
            <translation>Unterseite sauber, rau oder hängend</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/specimens/nozzle_offset.py</name>
        <message>
            <source>bars of both materials in one line</source>
            <translation>Stäbe beider Materialien in einer Linie</translation>
        </message>
        <message>
            <source>How far is the second nozzle off the first along x and y?</source>
            <translation>Wie weit liegt die zweite Düse in x und y neben der ersten?</translation>
        </message>
        <message>
            <source>The offset check takes a step from 0.01 to 0.5 mm and an odd number of bars, 3 to 41.</source>
            <translation>Die Versatzprobe braucht einen Schritt von 0,01 bis 0,5 mm und eine ungerade Zahl von Stegen, 3 bis 41.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/specimens/pair_release.py</name>
        <message>
            <source>support on model: falls off, peels, tears or stays</source>
            <translation>Stütze auf Modell: fällt ab, lässt sich abziehen, reißt oder bleibt</translation>
        </message>
        <message>
            <source>model on support: falls off, peels, tears or stays</source>
            <translation>Modell auf Stütze: fällt ab, lässt sich abziehen, reißt oder bleibt</translation>
        </message>
        <message>
            <source>gaps in mm</source>
            <translation>Spalte in mm</translation>
        </message>
        <message>
            <source>At which gap does this pair of materials hold while printing and come off afterwards?</source>
            <translation>Bei welchem Spalt hält dieses Materialpaar beim Drucken und löst sich danach?</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/specimens/slender_fins.py</name>
        <message>
            <source>thicknesses in mm</source>
            <translation>Dicken in mm</translation>
        </message>
        <message>
            <source>How thin may a tall wall be before it wavers as it is printed?</source>
            <translation>Wie dünn darf eine hohe Wand sein, ehe sie beim Drucken schwankt?</translation>
        </message>
        <message>
            <source>height at which the wall starts to waver</source>
            <translation>Höhe, ab der die Wand unruhig wird</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/specimens/specimen.py</name>
        <message>
            <source>Give 1 to 40 {what}, each from {low:g} to {high:g}.</source>
            <translation>Geben Sie 1 bis 40 {what} an, jeweils von {low:g} bis {high:g}.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/specimens/terrace_wedge.py</name>
        <message>
            <source>Up to which inclination do terraces show, and how wide is a terrace that does?</source>
            <translation>Bis zu welcher Neigung sieht man Treppen, und wie breit ist eine sichtbare Stufe?</translation>
        </message>
        <message>
            <source>terraces seen and felt, seen only, or not at all</source>
            <translation>Treppenstufen sichtbar und fühlbar, nur sichtbar oder gar nicht</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/spin_wish.py</name>
        <message>
            <source>The side that may carry the seam is not known.</source>
            <translation>Die Seite, die die Naht tragen darf, ist nicht bekannt.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/split_planes.py</name>
        <message>
            <source>Looking for a place to split</source>
            <translation>Eine Stelle zum Teilen wird gesucht</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/support_solids.py</name>
        <message>
            <source>Making support bodies</source>
            <translation>Stützkörper werden gebildet</translation>
        </message>
        <message>
            <source>Supports are thinned to cells of 0 to 20 mm with walls of 0.2 to 5 mm.</source>
            <translation>Stützen werden auf Zellen von 0 bis 20 mm mit Wänden von 0,2 bis 5 mm ausgedünnt.</translation>
        </message>
        <message>
            <source>Thinned supports need contact layers over their cells; ask for at least one.</source>
            <translation>Ausgedünnte Stützen brauchen Kontaktschichten über ihren Zellen; verlangen Sie mindestens eine.</translation>
        </message>
        <message>
            <source>The contact gap is 0 to 5 mm, with 0 to 20 contact layers.</source>
            <translation>Der Kontaktspalt ist 0 bis 5 mm weit, mit 0 bis 20 Kontaktschichten.</translation>
        </message>
        <message>
            <source>The part is not closed, so no support bodies can be made for it; mend it first.</source>
            <translation>Das Teil ist nicht geschlossen, darum lassen sich keine Stützkörper machen; bessern Sie es zuerst aus.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/unit_doubt.py</name>
        <message>
            <source>metres</source>
            <translation>Meter</translation>
        </message>
        <message>
            <source>inches</source>
            <translation>Zoll</translation>
        </message>
        <message>
            <source>inch</source>
            <translation>Zoll</translation>
        </message>
        <message>
            <source>ft</source>
            <translation>Fuß</translation>
        </message>
        <message>
            <source>micron</source>
            <translation>µm</translation>
        </message>
        <message>
            <source>The part is only {size} mm: these look like {plural}. Scale?</source>
            <translation>Das Teil misst nur {size} mm: Das sieht nach {plural} aus. Umrechnen?</translation>
        </message>
        <message>
            <source>The part is {size} mm, larger than most machines: are these millimetres?</source>
            <translation>Das Teil misst {size} mm, mehr als die meisten Maschinen fassen: Sind das Millimeter?</translation>
        </message>
        <message>
            <source>The part is only {size} mm, less than a grain: in which unit was it drawn?</source>
            <translation>Das Teil misst nur {size} mm, weniger als ein Korn: In welcher Einheit wurde es gezeichnet?</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/visible_faces.py</name>
        <message>
            <source>Looking at the part from all sides</source>
            <translation>Das Teil wird von allen Seiten betrachtet</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/wall_samples.py</name>
        <message>
            <source>Measuring walls and gaps</source>
            <translation>Wände und Spalte werden gemessen</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/what_matters.py</name>
        <message>
            <source>How much something matters is a number from 0 to 100.</source>
            <translation>Wie viel etwas zählt, ist eine Zahl von 0 bis 100.</translation>
        </message>
        <message>
            <source>One of the limits is not known.</source>
            <translation>Eine der Grenzen ist nicht bekannt.</translation>
        </message>
    </context>
    <context>
        <name>viewer/geometry/worst_patch.py</name>
        <message>
            <source>There is no touch on class A in this pose, so there is no worst patch of it.</source>
            <translation>In dieser Lage liegt an Klasse A keine Stütze an, also gibt es keine schlimmste Stelle.</translation>
        </message>
        <message>
            <source>There are no terraces on class A in this pose, so there is no worst patch of them.</source>
            <translation>In dieser Lage hat Klasse A keine Treppen, also gibt es keine schlimmste Stelle.</translation>
        </message>
    </context>
    <context>
        <name>viewer/live/jobs.py</name>
        <message>
            <source>There is not enough memory for that; close other programs.</source>
            <translation>Dafür reicht der Speicher nicht; schließen Sie andere Programme.</translation>
        </message>
        <message>
            <source>Something went wrong inside Showside ({problem}). Nothing was changed; the log file holds the details.</source>
            <translation>In Showside ist etwas schiefgegangen ({problem}). Es wurde nichts geändert; Näheres steht in der Protokolldatei.</translation>
        </message>
    </context>
    <context>
        <name>viewer/live/kernel_warm_up.py</name>
        <message>
            <source>Begins when the measuring code is ready (once for each installation, some minutes).</source>
            <translation>Beginnt, sobald der Messcode fertig ist (einmal je Installation, einige Minuten).</translation>
        </message>
    </context>
    <context>
        <name>viewer/own_process.py</name>
        <message>
            <source>The calculation came to a sudden end in its own process, perhaps for lack of memory. Nothing was changed; close other programs and try again.</source>
            <translation>Die Berechnung brach in einem eigenen Prozess plötzlich ab, vielleicht aus Mangel an Speicher. Es wurde nichts geändert; schließen Sie andere Programme und versuchen Sie es noch einmal.</translation>
        </message>
    </context>
    <context>
        <name>viewer/paper/make_sheet.py</name>
        <message>
            <source>Measuring the poses of the sheet</source>
            <translation>Die Lagen des Kundenblatts werden gemessen</translation>
        </message>
        <message>
            <source>Checking the file for the sheet</source>
            <translation>Die Datei wird für das Kundenblatt geprüft</translation>
        </message>
        <message>
            <source>Drawing the pictures of the sheet</source>
            <translation>Die Bilder des Kundenblatts werden gezeichnet</translation>
        </message>
        <message>
            <source>There is no part to make a sheet of. Open one first.</source>
            <translation>Es gibt kein Teil für ein Kundenblatt. Öffnen Sie zuerst eines.</translation>
        </message>
        <message>
            <source>{problem} Choose in the shop what it is printed with.</source>
            <translation>{problem} Wählen Sie in der Werkstatt, womit gedruckt wird.</translation>
        </message>
    </context>
    <context>
        <name>viewer/paper/pages.py</name>
        <message>
            <source>{part}, page {page} of {count}</source>
            <translation>{part}, Seite {page} von {count}</translation>
        </message>
        <message>
            <source>Setting the pages</source>
            <translation>Die Seiten werden gesetzt</translation>
        </message>
        <message>
            <source>The pages could not be made; write the sheet as HTML instead.</source>
            <translation>Die Seiten konnten nicht erzeugt werden; schreiben Sie das Kundenblatt stattdessen als HTML.</translation>
        </message>
    </context>
    <context>
        <name>viewer/progress.py</name>
        <message>
            <source>Stopped; nothing was changed.</source>
            <translation>Angehalten; es wurde nichts geändert.</translation>
        </message>
    </context>
    <context>
        <name>viewer/scene/fault_looks.py</name>
        <message>
            <source>does not close</source>
            <translation>schließt sich nicht</translation>
        </message>
        <message>
            <source>crosses or meets wrongly</source>
            <translation>kreuzt oder trifft falsch</translation>
        </message>
        <message>
            <source>faces the wrong way</source>
            <translation>zeigt falsch herum</translation>
        </message>
        <message>
            <source>is there twice</source>
            <translation>ist doppelt da</translation>
        </message>
        <message>
            <source>thin, small or loose</source>
            <translation>dünn, klein oder lose</translation>
        </message>
    </context>
    <context>
        <name>viewer/scene/hatches.py</name>
        <message>
            <source>rising stripes</source>
            <translation>steigende Streifen</translation>
        </message>
        <message>
            <source>falling stripes</source>
            <translation>fallende Streifen</translation>
        </message>
        <message>
            <source>level stripes</source>
            <translation>waagerechte Streifen</translation>
        </message>
        <message>
            <source>dots</source>
            <translation>Punkte</translation>
        </message>
        <message>
            <source>translucent</source>
            <translation>durchscheinend</translation>
        </message>
    </context>
    <context>
        <name>viewer/scene/legend_drawing.py</name>
        <message>
            <source> and more</source>
            <translation> und mehr</translation>
        </message>
    </context>
    <context>
        <name>viewer/scene/legends.py</name>
        <message>
            <source>At most {max_mm:.2g} mm off, 95 % within {share_95_mm:.2g} mm, mean {mean_mm:.2g} mm; nothing of the part as received is farther away than {max_mm_2:.2g} mm.</source>
            <translation>Höchstens {max_mm:.2g} mm daneben, 95 % innerhalb von {share_95_mm:.2g} mm, im Mittel {mean_mm:.2g} mm; nichts vom Teil wie erhalten ist weiter entfernt als {max_mm_2:.2g} mm.</translation>
        </message>
        <message>
            <source>support limit {limit:g}°</source>
            <translation>Stützwinkel {limit:g}°</translation>
        </message>
        <message>
            <source>visible from {shown:g} mm</source>
            <translation>sichtbar ab {shown:g} mm</translation>
        </message>
        <message>
            <source>road width {road:g} mm</source>
            <translation>Bahnbreite {road:g} mm</translation>
        </message>
        <message>
            <source>Pin a pose (P) to see where another one is better and where worse.</source>
            <translation>Heften Sie eine Lage an (P), um zu sehen, wo eine andere besser und wo sie schlechter ist.</translation>
        </message>
        <message>
            <source>Measuring both poses …</source>
            <translation>Beide Lagen werden gemessen …</translation>
        </message>
        <message>
            <source>Nothing was mended since the file was opened.</source>
            <translation>Seit dem Öffnen der Datei wurde nichts ausgebessert.</translation>
        </message>
        <message>
            <source>Comparing with the part as received …</source>
            <translation>Wird mit dem Teil wie erhalten verglichen …</translation>
        </message>
        <message>
            <source>Classes</source>
            <translation>Klassen</translation>
        </message>
        <message>
            <source>How much each face shows on the finished part.</source>
            <translation>Wie sehr jede Fläche am fertigen Teil zu sehen ist.</translation>
        </message>
        <message>
            <source>Overhang</source>
            <translation>Überhang</translation>
        </message>
        <message>
            <source>Inclination of undersides from horizontal: 0° is a ceiling, 90° a wall.</source>
            <translation>Neigung der Unterseiten gegen die Waagerechte: 0° ist eine Decke, 90° eine Wand.</translation>
        </message>
        <message>
            <source>Touch and landing</source>
            <translation>Kontakt und Stand</translation>
        </message>
        <message>
            <source>Where supports bear against the part (stripes) and stand on it (dots).</source>
            <translation>Wo Stützen am Teil anliegen (Streifen) und wo sie darauf stehen (Punkte).</translation>
        </message>
        <message>
            <source>Terraces</source>
            <translation>Treppen</translation>
        </message>
        <message>
            <source>Width of one stair step: layer height ÷ tangent of the inclination.</source>
            <translation>Breite einer Treppenstufe: Schichthöhe ÷ Tangens der Neigung.</translation>
        </message>
        <message>
            <source>Faults</source>
            <translation>Fehler</translation>
        </message>
        <message>
            <source>Where the surface is at fault; markers and edges show through the part.</source>
            <translation>Wo die Oberfläche fehlerhaft ist; Zeichen und Kanten scheinen durch das Teil.</translation>
        </message>
        <message>
            <source>Deviation</source>
            <translation>Abweichung</translation>
        </message>
        <message>
            <source>How far the mended surface lies from the part as received.</source>
            <translation>Wie weit die ausgebesserte Oberfläche vom Teil wie erhalten entfernt liegt.</translation>
        </message>
        <message>
            <source>Printed look</source>
            <translation>Druckbild</translation>
        </message>
        <message>
            <source>The part as it comes out in layers of {layer:g} mm, supports taken off: fine lines on walls, broad terraces on shallow slopes. Shading only; the shape is not changed.</source>
            <translation>Das Teil, wie es in Schichten von {layer:g} mm herauskommt, Stützen entfernt: feine Linien an Wänden, breite Stufen auf flachen Hängen. Nur Schattierung; die Form bleibt.</translation>
        </message>
        <message>
            <source>Difference</source>
            <translation>Differenz</translation>
        </message>
        <message>
            <source>How much broader the steps of each face come out than in the pose it is compared with; a touched face counts like steps of {most:g} mm. Where faces are marked, the others are pale.</source>
            <translation>Wie viel breiter die Stufen jeder Fläche werden als in der Lage, mit der verglichen wird; eine Fläche mit Stützkontakt zählt wie Stufen von {most:g} mm. Wo Flächen markiert sind, sind die übrigen blass.</translation>
        </message>
        <message>
            <source>{words}: {better_mm2:,.0f} mm² better, {worse_mm2:,.0f} mm² worse</source>
            <translation>{words}: {better_mm2:,.0f} mm² besser, {worse_mm2:,.0f} mm² schlechter</translation>
        </message>
        <message>
            <source>layer {layer:g} mm</source>
            <translation>Schicht {layer:g} mm</translation>
        </message>
        <message>
            <source>the same</source>
            <translation>gleich</translation>
        </message>
        <message>
            <source>class {name}</source>
            <translation>Klasse {name}</translation>
        </message>
        <message>
            <source>all faces</source>
            <translation>alle Flächen</translation>
        </message>
        <message>
            <source>class A: always in view</source>
            <translation>Klasse A: immer im Blick</translation>
        </message>
        <message>
            <source>class B: seen in use</source>
            <translation>Klasse B: im Gebrauch zu sehen</translation>
        </message>
        <message>
            <source>unmarked: hidden</source>
            <translation>unmarkiert: verdeckt</translation>
        </message>
        <message>
            <source>holds itself up, or faces upward</source>
            <translation>trägt sich selbst oder zeigt nach oben</translation>
        </message>
        <message>
            <source>touch on class A</source>
            <translation>Kontakt auf A</translation>
        </message>
        <message>
            <source>touch on class B</source>
            <translation>Kontakt auf B</translation>
        </message>
        <message>
            <source>touch elsewhere</source>
            <translation>Kontakt sonst</translation>
        </message>
        <message>
            <source>landing on class A</source>
            <translation>Stand auf A</translation>
        </message>
        <message>
            <source>landing on class B</source>
            <translation>Stand auf B</translation>
        </message>
        <message>
            <source>landing elsewhere, platform</source>
            <translation>Stand sonst, Bauplattform</translation>
        </message>
        <message>
            <source>support</source>
            <translation>Stütze</translation>
        </message>
        <message>
            <source>island</source>
            <translation>Insel</translation>
        </message>
        <message>
            <source>support shut in</source>
            <translation>Stütze eingeschlossen</translation>
        </message>
        <message>
            <source>level or within one layer: no stairs</source>
            <translation>eben oder innerhalb einer Schicht: keine Stufen</translation>
        </message>
        <message>
            <source>layers of {layer:g} mm: terraces</source>
            <translation>Schichten von {layer:g} mm: Stufen</translation>
        </message>
        <message>
            <source>level top: roads</source>
            <translation>ebene Oberseite: Bahnen</translation>
        </message>
        <message>
            <source>on the platform: smooth</source>
            <translation>auf der Bauplattform: glatt</translation>
        </message>
        <message>
            <source>rough: support broken off</source>
            <translation>rau: Stütze abgebrochen</translation>
        </message>
        <message>
            <source>better by {clear:.3g} mm or more</source>
            <translation>ab {clear:.3g} mm besser</translation>
        </message>
        <message>
            <source>worse by {clear:.3g} mm or more</source>
            <translation>ab {clear:.3g} mm schlechter</translation>
        </message>
    </context>
    <context>
        <name>viewer/scene/pictures.py</name>
        <message>
            <source>The picture cannot be written to {path}: {strerror}; choose another folder.</source>
            <translation>Das Bild lässt sich nicht nach {path} schreiben: {strerror}; wählen Sie einen anderen Ordner.</translation>
        </message>
    </context>
    <context>
        <name>viewer/scene/sheet_pictures.py</name>
        <message>
            <source>Drawing</source>
            <translation>Zeichnen</translation>
        </message>
    </context>
    <context>
        <name>viewer/scene/shots.py</name>
        <message>
            <source>Drawing the picture</source>
            <translation>Bild wird gezeichnet</translation>
        </message>
        <message>
            <source>Drawing picture {number} of {count}</source>
            <translation>Bild {number} von {count} wird gezeichnet</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/calibrate.py</name>
        <message>
            <source>Finished print</source>
            <translation>Fertiger Druck</translation>
        </message>
        <message>
            <source>time and mass must not be negative.</source>
            <translation>Zeit und Masse dürfen nicht negativ sein.</translation>
        </message>
        <message>
            <source>note the real time or the real mass beside the estimate.</source>
            <translation>halten Sie neben der Schätzung die wirkliche Zeit oder die wirkliche Masse fest.</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/cautions.py</name>
        <message>
            <source>"{name}" names the caution "{unknown}", which there is not; known: {keys}.</source>
            <translation>„{name}“ nennt den Warnhinweis „{unknown}“, den es nicht gibt; bekannt: {keys}.</translation>
        </message>
        <message>
            <source>Printing gives off ultrafine particles and vapours: ventilate the room, and do not sit beside the machine. ANSI/CAN/UL 2904 is the test method by which machines and materials are compared.</source>
            <translation>Beim Drucken entstehen ultrafeine Partikel und Dämpfe: Lüften Sie den Raum, und sitzen Sie nicht neben der Maschine. ANSI/CAN/UL 2904 ist das Prüfverfahren, mit dem Maschinen und Materialien verglichen werden.</translation>
        </message>
        <message>
            <source>READ Stephens et al. 2013; Azimi et al. 2016; ANSI/CAN/UL 2904 as test method</source>
            <translation>GELESEN Stephens et al. 2013; Azimi et al. 2016; ANSI/CAN/UL 2904 als Prüfverfahren</translation>
        </message>
        <message>
            <source>Nozzle, platform and fresh material are hot: let them cool before you reach in.</source>
            <translation>Düse, Plattform und frisches Material sind heiß: Lassen Sie sie abkühlen, bevor Sie hineingreifen.</translation>
        </message>
        <message>
            <source>common practice, no source</source>
            <translation>übliche Praxis, ohne Quelle</translation>
        </message>
        <message>
            <source>Follow the supplier's safety data sheet of every material and liquid, and the rules of your place; where they say otherwise, they are right.</source>
            <translation>Halten Sie sich an das Sicherheitsdatenblatt jedes Materials und jeder Flüssigkeit und an die Vorschriften an Ihrem Ort; wo sie etwas anderes sagen, gelten sie.</translation>
        </message>
        <message>
            <source>Not for parts that bear loads or protect, for medical use, food or children, without the qualified assessment that applies there.</source>
            <translation>Nicht für Teile, die Lasten tragen oder schützen, nicht für Medizin, Lebensmittel oder Kinder, ohne die dort vorgeschriebene fachkundige Prüfung.</translation>
        </message>
        <message>
            <source>This material gives off styrene as well: ventilate to the outside.</source>
            <translation>Dieses Material gibt auch Styrol ab: Lüften Sie ins Freie.</translation>
        </message>
        <message>
            <source>READ Stephens et al. 2013; Azimi et al. 2016 (ABS and HIPS)</source>
            <translation>GELESEN Stephens et al. 2013; Azimi et al. 2016 (ABS und HIPS)</translation>
        </message>
        <message>
            <source>Solvents: wear gloves and glasses, ventilate, keep away from flames and sparks, collect what is used up as hazardous waste, never into drains.</source>
            <translation>Lösungsmittel: Handschuhe und Brille tragen, lüften, von Flammen und Funken fernhalten, Verbrauchtes als Sondermüll sammeln, nie in den Abfluss.</translation>
        </message>
        <message>
            <source>Limonene (CAS 5989-27-5) is flammable (flash point 48 °C), irritates and sensitises the skin (H226, H304, H315, H317), and is very toxic to water life (H410): not into drains. Rags soaked in it can take fire by themselves: keep them in a closed metal bin, wet.</source>
            <translation>Limonen (CAS 5989-27-5) ist entzündbar (Flammpunkt 48 °C), reizt und sensibilisiert die Haut (H226, H304, H315, H317) und ist sehr giftig für Wasserorganismen (H410): nicht in den Abfluss. Getränkte Lappen können sich selbst entzünden: nass in einem geschlossenen Metallbehälter aufbewahren.</translation>
        </message>
        <message>
            <source>READ safety data sheet; the closed bin is common practice, no source</source>
            <translation>GELESEN Sicherheitsdatenblatt; der geschlossene Behälter ist übliche Praxis, ohne Quelle</translation>
        </message>
        <message>
            <source>Water with dissolved support goes to waste as the supplier says, in small amounts with much water; the material takes up moisture and has to be kept dry until it is printed.</source>
            <translation>Wasser mit gelöstem Stützmaterial entsorgen Sie, wie der Lieferant es angibt, in kleinen Mengen mit viel Wasser; das Material zieht Feuchtigkeit und muss bis zum Drucken trocken liegen.</translation>
        </message>
        <message>
            <source>READ/MEM supplier notes</source>
            <translation>GELESEN/aus dem Gedächtnis: Angaben von Lieferanten</translation>
        </message>
        <message>
            <source>How strongly these two hold depends on grades, temperatures and on which lies on top: print a test piece in both stacking orders first.</source>
            <translation>Wie fest diese beiden halten, hängt von Sorten, Temperaturen und davon ab, welches oben liegt: Drucken Sie zuerst ein Teststück in beiden Reihenfolgen.</translation>
        </message>
        <message>
            <source>READ Zatloukal et al. 2025, Materials 18:3846, for PLA and PETG</source>
            <translation>GELESEN Zatloukal et al. 2025, Materials 18:3846, für PLA und PETG</translation>
        </message>
        <message>
            <source>Breaking and cutting supports off throws splinters: wear glasses, cut away from yourself.</source>
            <translation>Beim Abbrechen und Abschneiden von Stützen fliegen Splitter: Brille tragen, vom Körper weg schneiden.</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/comparing.py</name>
        <message>
            <source>no difference</source>
            <translation>kein Unterschied</translation>
        </message>
        <message>
            <source>purge</source>
            <translation>Spülmaterial</translation>
        </message>
        <message>
            <source>{changes:+,} tool changes</source>
            <translation>{changes:+,} Werkzeugwechsel</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/fit.py</name>
        <message>
            <source>No room beside {what}, by {over:.1f} mm.</source>
            <translation>Kein Platz neben {what}, um {over:.1f} mm.</translation>
        </message>
        <message>
            <source>too wide by {over:.1f} mm at the best spin, {deg:.0f}°.</source>
            <translation>um {over:.1f} mm zu breit bei der besten Drehung, {deg:.0f}°.</translation>
        </message>
        <message>
            <source>Fits when its spin is {deg:g}°.</source>
            <translation>Passt bei einer Drehung von {deg:g}°.</translation>
        </message>
        <message>
            <source>a forbidden area</source>
            <translation>einem Sperrbereich</translation>
        </message>
        <message>
            <source>the purged body and forbidden areas</source>
            <translation>dem Spülkörper und den Sperrbereichen</translation>
        </message>
        <message>
            <source>{too_high}, by {over_z:.1f} mm.</source>
            <translation>{too_high}, um {over_z:.1f} mm.</translation>
        </message>
        <message>
            <source>higher than nozzle "{name}" reaches</source>
            <translation>höher, als Düse „{name}“ reicht</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/job_layers.py</name>
        <message>
            <source>The layers are not measured yet; wait until the part lies still.</source>
            <translation>Die Schichten sind noch nicht gemessen; warten Sie, bis das Teil still liegt.</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/lessons.py</name>
        <message>
            <source>Support limit</source>
            <translation>Stützwinkel</translation>
        </message>
        <message>
            <source>Bridge limit</source>
            <translation>Brückengrenze</translation>
        </message>
        <message>
            <source>Visible terraces</source>
            <translation>Sichtbare Treppen</translation>
        </message>
        <message>
            <source>Touched face</source>
            <translation>Fläche am Kontakt</translation>
        </message>
        <message>
            <source>{count} trials say {likely}, between {low} and {high}; now {now}.</source>
            <translation>{count} Versuche sagen {likely}, zwischen {low} und {high}; jetzt {now}.</translation>
        </message>
        <message>
            <source>“{of}” on “{machine}”, {days}. Before any trial: {start}, which counts as a loose guess.</source>
            <translation>„{of}“ auf „{machine}“, {days}. Vor jedem Versuch: {start}, was als grobe Schätzung zählt.</translation>
        </message>
        <message>
            <source> Nine of ten prints come out at {safe}.</source>
            <translation> Neun von zehn Drucken gelingen bei {safe}.</translation>
        </message>
        <message>
            <source>{first} to {last}</source>
            <translation>{first} bis {last}</translation>
        </message>
        <message>
            <source>1 trial says {likely}, between {low} and {high}; now {now}.</source>
            <translation>1 Versuch sagt {likely}, zwischen {low} und {high}; jetzt {now}.</translation>
        </message>
        <message>
            <source> Every step came out, so the limit itself was not seen: try harder steps.</source>
            <translation> Jede Stufe gelang, der Grenzwert selbst war also nicht zu sehen: Probieren Sie schwierigere Stufen.</translation>
        </message>
        <message>
            <source> 0 is as clean as any face, 1 as after breaking a support off.</source>
            <translation> 0 ist so sauber wie jede andere Fläche, 1 wie nach dem Abbrechen einer Stütze.</translation>
        </message>
        <message>
            <source> No step came out, so the limit itself was not seen: try easier steps.</source>
            <translation> Keine Stufe gelang, der Grenzwert selbst war also nicht zu sehen: Probieren Sie leichtere Stufen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/machines.py</name>
        <message>
            <source>Nozzle "{name}"</source>
            <translation>Düse „{name}“</translation>
        </message>
        <message>
            <source>Forbidden area "{name}"</source>
            <translation>Sperrfläche „{name}“</translation>
        </message>
        <message>
            <source>Machine "{name}"</source>
            <translation>Maschine „{name}“</translation>
        </message>
        <message>
            <source>width, depth and height of the build volume must lie between 1 and 10000 mm.</source>
            <translation>Breite, Tiefe und Höhe des Bauraums müssen zwischen 1 und 10000 mm liegen.</translation>
        </message>
        <message>
            <source>it needs at least one nozzle.</source>
            <translation>es braucht mindestens eine Düse.</translation>
        </message>
        <message>
            <source>two nozzles have the same name; give each its own.</source>
            <translation>zwei Düsen heißen gleich; geben Sie jeder einen eigenen Namen.</translation>
        </message>
        <message>
            <source>a shared nozzle is the only one; leave the other nozzles out.</source>
            <translation>eine gemeinsame Düse ist die einzige; lassen Sie die anderen weg.</translation>
        </message>
        <message>
            <source>without a shared nozzle it takes as many materials as it has nozzles.</source>
            <translation>ohne gemeinsame Düse nimmt sie so viele Materialien auf, wie sie Düsen hat.</translation>
        </message>
        <message>
            <source>the range of layer heights must rise, from at least 0.01 to at most 5 mm.</source>
            <translation>der Bereich der Schichthöhen muss steigen, von mindestens 0,01 bis höchstens 5 mm.</translation>
        </message>
        <message>
            <source>its travel speed must lie between 1 and 5000 mm/s.</source>
            <translation>die Fahrgeschwindigkeit muss zwischen 1 und 5000 mm/s liegen.</translation>
        </message>
        <message>
            <source>its acceleration must lie between 1 and 1000000 mm/s².</source>
            <translation>die Beschleunigung muss zwischen 1 und 1000000 mm/s² liegen.</translation>
        </message>
        <message>
            <source>a change of material takes between 0 and 3600 seconds.</source>
            <translation>ein Materialwechsel dauert zwischen 0 und 3600 Sekunden.</translation>
        </message>
        <message>
            <source>purging takes 0 to 10000 mm³, and priming a nozzle of its own no more than purging.</source>
            <translation>Spülen braucht 0 bis 10000 mm³, und das Anfahren einer eigenen Düse nicht mehr als das Spülen.</translation>
        </message>
        <message>
            <source>the sides of the body of purged material must lie between 0 and 1000 mm.</source>
            <translation>die Seiten des Spülkörpers müssen zwischen 0 und 1000 mm liegen.</translation>
        </message>
        <message>
            <source>its start takes between 0 and 86400 seconds.</source>
            <translation>der Start dauert zwischen 0 und 86400 Sekunden.</translation>
        </message>
        <message>
            <source>a new layer takes between 0 and 600 seconds.</source>
            <translation>eine neue Schicht dauert zwischen 0 und 600 Sekunden.</translation>
        </message>
        <message>
            <source>its hourly rate must lie between 0 and 1000000.</source>
            <translation>der Stundensatz muss zwischen 0 und 1000000 liegen.</translation>
        </message>
        <message>
            <source>name the currency in up to 8 letters, such as "EUR".</source>
            <translation>nennen Sie die Währung in bis zu 8 Buchstaben, etwa „EUR“.</translation>
        </message>
        <message>
            <source>its diameter must lie between 0.05 and 5 mm.</source>
            <translation>der Durchmesser muss zwischen 0,05 und 5 mm liegen.</translation>
        </message>
        <message>
            <source>its flow limit must lie between 0.05 and 2000 mm³/s.</source>
            <translation>die Durchflussgrenze muss zwischen 0,05 und 2000 mm³/s liegen.</translation>
        </message>
        <message>
            <source>the upper corner of its reach must lie above the lower one in x, y and z.</source>
            <translation>die obere Ecke der Reichweite muss in x, y und z über der unteren liegen.</translation>
        </message>
        <message>
            <source>its upper corner must lie beyond the lower one in x and y.</source>
            <translation>die obere Ecke muss in x und y jenseits der unteren liegen.</translation>
        </message>
        <message>
            <source>its height must lie between 0 and 10000 mm.</source>
            <translation>die Höhe muss zwischen 0 und 10000 mm liegen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/maker.py</name>
        <message>
            <source>Your company</source>
            <translation>Ihre Firma</translation>
        </message>
        <message>
            <source>keep its name within 80 letters, without line breaks.</source>
            <translation>halten Sie ihren Namen in 80 Buchstaben, ohne Zeilenumbruch.</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/materials.py</name>
        <message>
            <source>Material "{name}"</source>
            <translation>Material „{name}“</translation>
        </message>
        <message>
            <source>its density must lie between 0.05 and 25 g/cm³.</source>
            <translation>die Dichte muss zwischen 0,05 und 25 g/cm³ liegen.</translation>
        </message>
        <message>
            <source>its price per kg must lie between 0 and 1000000.</source>
            <translation>der Preis je kg muss zwischen 0 und 1000000 liegen.</translation>
        </message>
        <message>
            <source>its shortest time for a layer must lie between 0 and 600 seconds.</source>
            <translation>die kürzeste Zeit für eine Schicht muss zwischen 0 und 600 Sekunden liegen.</translation>
        </message>
        <message>
            <source>its bridge limit must lie between 0 and 200 mm.</source>
            <translation>die Brückengrenze muss zwischen 0 und 200 mm liegen.</translation>
        </message>
        <message>
            <source>its support limit must lie between 0° and 90°.</source>
            <translation>der Stützwinkel muss zwischen 0° und 90° liegen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/offers.py</name>
        <message>
            <source>{model}, {other} contact layers</source>
            <translation>{model}, Kontaktschichten aus {other}</translation>
        </message>
        <message>
            <source>{model}, whole support of {other}</source>
            <translation>{model}, ganze Stütze aus {other}</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/packing.py</name>
        <message>
            <source>At most {most_pieces} pieces can be placed at once; ask for fewer.</source>
            <translation>Höchstens {most_pieces} Stücke lassen sich auf einmal stellen; verlangen Sie weniger.</translation>
        </message>
        <message>
            <source>{count} pieces do not find room on "{name}"; print fewer at once, or choose a smaller gap or a larger machine.</source>
            <translation>{count} Stücke finden auf „{name}“ keinen Platz; drucken Sie weniger auf einmal, oder wählen Sie einen kleineren Abstand oder eine größere Maschine.</translation>
        </message>
        <message>
            <source>{piece} is {height_mm:.0f} mm high, and "{name}" prints up to {top:.0f} mm there; leave it out or choose another machine.</source>
            <translation>{piece} ist {height_mm:.0f} mm hoch, und „{name}“ druckt dort bis {top:.0f} mm; lassen Sie es weg oder wählen Sie eine andere Maschine.</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/pairs.py</name>
        <message>
            <source>Pair "{name}"</source>
            <translation>Paar „{name}“</translation>
        </message>
        <message>
            <source>name the materials of the model, of the support body and of the contact layers.</source>
            <translation>nennen Sie die Materialien des Modells, des Stützkörpers und der Kontaktschichten.</translation>
        </message>
        <message>
            <source>its contact gap must lie between 0 and 5 mm.</source>
            <translation>der Kontaktspalt muss zwischen 0 und 5 mm liegen.</translation>
        </message>
        <message>
            <source>it must have between 0 and 100 contact layers.</source>
            <translation>es muss zwischen 0 und 100 Kontaktschichten haben.</translation>
        </message>
        <message>
            <source>the densities of support and contact layers must lie between 0.01 and 1 (full).</source>
            <translation>die Dichten von Stütze und Kontaktschichten müssen zwischen 0,01 und 1 (voll) liegen.</translation>
        </message>
        <message>
            <source>the weight of touch must lie between 0 (as clean) and 10.</source>
            <translation>das Gewicht des Kontakts muss zwischen 0 (wie sauber) und 10 liegen.</translation>
        </message>
        <message>
            <source>name the solvent that its support is dissolved in.</source>
            <translation>nennen Sie das Lösungsmittel, in dem sich die Stützen lösen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/print_job.py</name>
        <message>
            <source>“{pair}” needs {count} materials ({names}), and “{machine}” is loaded with {loaded}.</source>
            <translation>„{pair}“ braucht {count} Materialien ({names}), und „{machine}“ ist mit {loaded} geladen.</translation>
        </message>
        <message>
            <source>Most time goes into {part}, {share:.0f} %; the range is as wide as it is most of all through {widest}.</source>
            <translation>Die meiste Zeit nehmen: {part}, {share:.0f} %; am meisten zur Breite des Bereichs trägt bei: {widest}.</translation>
        </message>
        <message>
            <source>1 material</source>
            <translation>1 Material</translation>
        </message>
        <message>
            <source>{count} materials</source>
            <translation>{count} Materialien</translation>
        </message>
        <message>
            <source>{problem} Choose another machine or another pair.</source>
            <translation>{problem} Wählen Sie eine andere Maschine oder ein anderes Paar.</translation>
        </message>
        <message>
            <source>The number of copies must lie between 1 and 10000.</source>
            <translation>Die Stückzahl muss zwischen 1 und 10000 liegen.</translation>
        </message>
        <message>
            <source>walls</source>
            <translation>Wände</translation>
        </message>
        <message>
            <source>full layers</source>
            <translation>volle Schichten</translation>
        </message>
        <message>
            <source>fill</source>
            <translation>Füllung</translation>
        </message>
        <message>
            <source>support body</source>
            <translation>Stützkörper</translation>
        </message>
        <message>
            <source>contact layers</source>
            <translation>Kontaktschichten</translation>
        </message>
        <message>
            <source>travel</source>
            <translation>Leerfahrten</translation>
        </message>
        <message>
            <source>waiting for layers to set</source>
            <translation>Warten auf das Erstarren der Schichten</translation>
        </message>
        <message>
            <source>tool changes</source>
            <translation>Werkzeugwechsel</translation>
        </message>
        <message>
            <source>purging</source>
            <translation>Spülen</translation>
        </message>
        <message>
            <source>start and layer changes</source>
            <translation>Start und Schichtwechsel</translation>
        </message>
        <message>
            <source>test pieces beside the part</source>
            <translation>Probestücke neben dem Teil</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/processes.py</name>
        <message>
            <source>Process "{name}"</source>
            <translation>Prozess „{name}“</translation>
        </message>
        <message>
            <source>it must have between 0 and 100 walls.</source>
            <translation>er muss zwischen 0 und 100 Wände haben.</translation>
        </message>
        <message>
            <source>it must have between 0 and 50 full layers.</source>
            <translation>er muss zwischen 0 und 50 volle Schichten haben.</translation>
        </message>
        <message>
            <source>the density of the fill must lie between 0 and 1 (full).</source>
            <translation>die Dichte der Füllung muss zwischen 0 und 1 (voll) liegen.</translation>
        </message>
        <message>
            <source>each speed must lie between 0.1 and 5000 mm/s.</source>
            <translation>jede Geschwindigkeit muss zwischen 0,1 und 5000 mm/s liegen.</translation>
        </message>
        <message>
            <source>the spacing must lie between 0 and 1000 mm.</source>
            <translation>der Abstand muss zwischen 0 und 1000 mm liegen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/risk.py</name>
        <message>
            <source>a little</source>
            <translation>wenig</translation>
        </message>
        <message>
            <source>somewhat</source>
            <translation>mäßig</translation>
        </message>
        <message>
            <source>much</source>
            <translation>stark</translation>
        </message>
        <message>
            <source>Its foot is {length:.0f} mm long, and {name} shrinks {shrinks} while it cools: the corners may lift.</source>
            <translation>Sein Fuß ist {length:.0f} mm lang, und {name} schrumpft beim Abkühlen {shrinks}: Die Ecken können sich heben.</translation>
        </message>
        <message>
            <source>{foot:.0f} mm² hold a print of {height_mm:.0f} mm to the platform; a wider rim round its foot would help.</source>
            <translation>{foot:.0f} mm² halten einen Druck von {height_mm:.0f} mm auf der Bauplattform; ein breiterer Rand um den Fuß würde helfen.</translation>
        </message>
        <message>
            <source>{name} oozes while it waits: in {count:,} layers it may leave threads on class A.</source>
            <translation>{name} läuft nach, während es wartet: In {count:,} Schichten kann es Fäden auf Klasse A hinterlassen.</translation>
        </message>
        <message>
            <source>At {at:.1f} mm its weight lies outside its foot, and it falls over by itself.</source>
            <translation>Bei {at:.1f} mm liegt sein Gewicht außerhalb des Fußes, und es fällt von selbst um.</translation>
        </message>
        <message>
            <source>At {at:.1f} mm it tips over when it is tilted by {worst:.1f}°.</source>
            <translation>Bei {at:.1f} mm kippt es um, wenn es um {worst:.1f}° geneigt wird.</translation>
        </message>
        <message>
            <source>{count} more layers start in mid-air with very little.</source>
            <translation>{count} weitere Schichten beginnen in der Luft mit sehr wenig.</translation>
        </message>
        <message>
            <source>A layer starts in mid-air with {area_mm2:.2f} mm²; that hardly sticks to its support.</source>
            <translation>Eine Schicht beginnt in der Luft mit {area_mm2:.2f} mm²; das haftet kaum an seiner Stütze.</translation>
        </message>
        <message>
            <source>{volume_mm3:.0f} mm³ of support are sealed in and stay there.</source>
            <translation>{volume_mm3:.0f} mm³ Stützen sind eingeschlossen und bleiben drin.</translation>
        </message>
        <message>
            <source>{name} waits hot for {minutes:.0f} minutes and chars; let the nozzle cool meanwhile.</source>
            <translation>{name} wartet {minutes:.0f} Minuten heiß und verkohlt; lassen Sie die Düse so lange abkühlen.</translation>
        </message>
        <message>
            <source>{name} draws threads each time it starts anew, in {count:,} layers.</source>
            <translation>{name} zieht bei jedem neuen Anfang Fäden, in {count:,} Schichten.</translation>
        </message>
        <message>
            <source>{name} needs support below {needed_deg:g}°, and the support limit is {limit_deg:g}°.</source>
            <translation>{name} braucht unter {needed_deg:g}° Stützen, und der Stützwinkel ist {limit_deg:g}°.</translation>
        </message>
        <message>
            <source>{name} spans {bridge_limit_mm:g} mm, and the bridge limit is {bridge_mm:g} mm.</source>
            <translation>{name} überbrückt {bridge_limit_mm:g} mm, und die Brückengrenze ist {bridge_mm:g} mm.</translation>
        </message>
        <message>
            <source>Nothing stands on the platform.</source>
            <translation>Nichts steht auf der Plattform.</translation>
        </message>
        <message>
            <source>{volume_mm3:.0f} mm³ of support cannot be reached in a straight line; a support that dissolves would come out.</source>
            <translation>{volume_mm3:.0f} mm³ Stützen sind auf geradem Weg nicht zu erreichen; lösliche Stützen kämen heraus.</translation>
        </message>
        <message>
            <source>"{name}" prints layers of {low:g} to {high:g} mm, and the layer height is {layer_mm:g} mm.</source>
            <translation>„{name}“ druckt Schichten von {low:g} bis {high:g} mm, und die Schichthöhe ist {layer_mm:g} mm.</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/shop.py</name>
        <message>
            <source>did you mean "{near}"?</source>
            <translation>meinten Sie „{near}“?</translation>
        </message>
        <message>
            <source>there is none yet.</source>
            <translation>es gibt noch nichts.</translation>
        </message>
        <message>
            <source>There is no {kind} "{name}"; {meant} Known: {known}.</source>
            <translation>{kind} „{name}“ gibt es nicht; {meant} Bekannt: {known}.</translation>
        </message>
        <message>
            <source>machine</source>
            <translation>Maschine</translation>
        </message>
        <message>
            <source>material</source>
            <translation>Material</translation>
        </message>
        <message>
            <source>pair</source>
            <translation>Paar</translation>
        </message>
        <message>
            <source>process</source>
            <translation>Prozess</translation>
        </message>
        <message>
            <source>{name} cannot be read ({error}).</source>
            <translation>{name} ist nicht lesbar ({error}).</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/shop_choice.py</name>
        <message>
            <source>A name in the shop has at most {longest_name} letters.</source>
            <translation>Ein Name in der Werkstatt hat höchstens {longest_name} Zeichen.</translation>
        </message>
        <message>
            <source>At most {most} pieces can stand beside the part; choose fewer.</source>
            <translation>Neben dem Teil können höchstens {most} Stücke stehen; wählen Sie weniger.</translation>
        </message>
        <message>
            <source>The number of copies must lie between 1 and {most_copies}.</source>
            <translation>Die Zahl der Kopien muss zwischen 1 und {most_copies} liegen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/slender_risks.py</name>
        <message>
            <source>{tall:.0f} mm of a finger or wall that is {mean:.1f} mm thick on average beside other parts of its layers; it sways and shows it.</source>
            <translation>{tall:.0f} mm lang steht ein Finger oder eine Wand, im Mittel {mean:.1f} mm dick, neben anderem in denselben Schichten; das schwankt, und man sieht es.</translation>
        </message>
        <message>
            <source>{tall:.0f} mm of walls that are {mean:.1f} mm thick on average; they sway and show it.</source>
            <translation>{tall:.0f} mm hohe Wände, die im Mittel {mean:.1f} mm dick sind; sie schwanken, und man sieht es.</translation>
        </message>
        <message>
            <source>{name} is flexible, and {length:.0f} mm are at most {limit:g} mm thick: it wobbles under the nozzle. A brace at about {brace:.0f} mm would help.</source>
            <translation>{name} ist biegsam, und {length:.0f} mm sind höchstens {limit:g} mm dick: Es schwankt unter der Düse. Eine Strebe bei etwa {brace:.0f} mm würde helfen.</translation>
        </message>
        <message>
            <source>{name} is flexible, and a column beside other parts of its layers is {length:.0f} mm long and at most {limit:g} mm thick: it wobbles under the nozzle. A brace at about {brace:.0f} mm would help.</source>
            <translation>{name} ist biegsam, und neben anderem in denselben Schichten steht eine Säule, {length:.0f} mm lang und höchstens {limit:g} mm dick: Sie schwankt unter der Düse. Eine Strebe bei etwa {brace:.0f} mm würde helfen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/sound_values.py</name>
        <message>
            <source>give it a name of 1 to {longest_name} letters, without line breaks.</source>
            <translation>geben Sie einen Namen von 1 bis {longest_name} Zeichen, ohne Zeilenumbruch.</translation>
        </message>
        <message>
            <source> or {inner}</source>
            <translation> oder {inner}</translation>
        </message>
        <message>
            <source>the source of "{strange}" belongs to no value; name one{example}.</source>
            <translation>die Quelle von „{strange}“ gehört zu keinem Wert; nennen Sie einen{example}.</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/taken_limits.py</name>
        <message>
            <source>taken from trials: {count}</source>
            <translation>aus Versuchen übernommen: {count}</translation>
        </message>
        <message>
            <source>A limit that trials taught is damaged.</source>
            <translation>Ein Grenzwert aus Versuchen ist beschädigt.</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/toml_text.py</name>
        <message>
            <source>{file_name} is no TOML ({error}); mend it in a text editor.</source>
            <translation>{file_name} ist kein TOML ({error}); bessern Sie die Datei in einem Texteditor aus.</translation>
        </message>
        <message>
            <source>{file_name}{place}: {lower}; correct that line.</source>
            <translation>{file_name}{place}: {lower}; berichtigen Sie diese Zeile.</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/touch_weight.py</name>
        <message>
            <source>set by you</source>
            <translation>von Ihnen gesetzt</translation>
        </message>
        <message>
            <source>{source}; corrected by trials: {count}</source>
            <translation>{source}; berichtigt durch Versuche: {count}</translation>
        </message>
        <message>
            <source>“{pair}”: marks of supports count {weight} times their slider.</source>
            <translation>„{pair}“: Spuren von Stützen zählen {weight}-mal so viel wie ihr Regler.</translation>
        </message>
        <message>
            <source>(0 as clean, 0.5 as wide terraces, 1 as after breaking off; {source}.)</source>
            <translation>(0 wie sauber, 0,5 wie breite Treppenstufen, 1 wie nach dem Abbrechen; {source}.)</translation>
        </message>
        <message>
            <source>Give the roughness in µm, 0 or more, and a layer height above 0 mm.</source>
            <translation>Geben Sie die Rauheit in µm an, 0 oder mehr, und eine Schichthöhe über 0 mm.</translation>
        </message>
        <message>
            <source>A touched face comes out {how}.</source>
            <translation>Eine Fläche mit Stützkontakt wird: {how}.</translation>
        </message>
        <message>
            <source>The limit “no support touches class A” cuts such directions out all the same; without it they are weighed against terraces.</source>
            <translation>Die Grenze „keine Stütze berührt Klasse A“ schließt solche Richtungen trotzdem aus; ohne sie werden sie gegen Treppenstufen abgewogen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/trial_steps.py</name>
        <message>
            <source>Underside of each blade: clean, rough, or drooping?</source>
            <translation>Unterseite jeder Zunge: sauber, rau oder hängend?</translation>
        </message>
        <message>
            <source>Each beam from below: level, sagging, or torn?</source>
            <translation>Jeder Balken von unten: eben, durchhängend oder gerissen?</translation>
        </message>
        <message>
            <source>Each slope at the distance it is seen from: no steps, some, or plain?</source>
            <translation>Jede Schräge aus dem Abstand, aus dem man sie sieht: keine Stufen, ein wenig oder deutlich?</translation>
        </message>
        <message>
            <source>Lift each tab: comes off clean, leaves marks, or tears and stays?</source>
            <translation>Jede Lasche anheben: löst sich sauber, hinterlässt Spuren oder reißt und bleibt?</translation>
        </message>
        <message>
            <source>Each fin to its top: straight, wavering, or ruined?</source>
            <translation>Jede Rippe bis oben: gerade, wellig oder misslungen?</translation>
        </message>
        <message>
            <source>Each pair of bars: in one line, nearly, or not?</source>
            <translation>Jedes Paar Striche: in einer Linie, beinahe oder nicht?</translation>
        </message>
        <message>
            <source>The face that the support bore against: clean, acceptable, or bad?</source>
            <translation>Die Fläche, an der die Stütze anlag: sauber, annehmbar oder schlecht?</translation>
        </message>
        <message>
            <source>The slope that shows: no steps, some, or plain?</source>
            <translation>Die Schräge, die man sieht: keine Stufen, ein wenig oder deutlich?</translation>
        </message>
        <message>
            <source>clean</source>
            <translation>sauber</translation>
        </message>
        <message>
            <source>acceptable</source>
            <translation>annehmbar</translation>
        </message>
        <message>
            <source>bad</source>
            <translation>schlecht</translation>
        </message>
        <message>
            <source>model on support</source>
            <translation>Teil auf Stütze</translation>
        </message>
        <message>
            <source>support on model</source>
            <translation>Stütze auf Teil</translation>
        </message>
        <message>
            <source>Cut-out with a touched face</source>
            <translation>Ausschnitt mit einer Fläche, an der eine Stütze anlag</translation>
        </message>
        <message>
            <source>Cut-out with terraces</source>
            <translation>Ausschnitt mit Treppen</translation>
        </message>
        <message>
            <source>“{machine}”, {pair}, layers of {layer_mm:g} mm</source>
            <translation>„{machine}“, {pair}, Schichten von {layer_mm:g} mm</translation>
        </message>
        <message>
            <source>, terrace {terrace_mm:g} mm</source>
            <translation>, Treppenstufe {terrace_mm:g} mm</translation>
        </message>
        <message>
            <source>For {job}</source>
            <translation>Für {job}</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/trials.py</name>
        <message>
            <source>Trial</source>
            <translation>Versuch</translation>
        </message>
        <message>
            <source>The trials are damaged.</source>
            <translation>Die Versuche sind beschädigt.</translation>
        </message>
        <message>
            <source>it needs a key of its own.</source>
            <translation>er braucht einen eigenen Schlüssel.</translation>
        </message>
        <message>
            <source>write its day as 2026-11-26.</source>
            <translation>schreiben Sie den Tag wie 2026-11-26.</translation>
        </message>
        <message>
            <source>choose the test piece that was printed.</source>
            <translation>wählen Sie das Probestück, das gedruckt wurde.</translation>
        </message>
        <message>
            <source>one of its names is too long.</source>
            <translation>einer seiner Namen ist zu lang.</translation>
        </message>
        <message>
            <source>its layer must lie between 0.01 and 5 mm.</source>
            <translation>seine Schicht muss zwischen 0,01 und 5 mm liegen.</translation>
        </message>
        <message>
            <source>its build direction must be a direction.</source>
            <translation>seine Baurichtung muss eine Richtung sein.</translation>
        </message>
        <message>
            <source>say of at least one step how it came out.</source>
            <translation>sagen Sie von mindestens einer Stufe, wie sie herauskam.</translation>
        </message>
        <message>
            <source>a measured value must not be negative, and a step must be a number.</source>
            <translation>ein Messwert darf nicht negativ sein, und eine Stufe muss eine Zahl sein.</translation>
        </message>
        <message>
            <source>its note has at most {most} letters.</source>
            <translation>seine Notiz hat höchstens {most} Zeichen.</translation>
        </message>
        <message>
            <source>its photo is too large; take one of less than 4 MB.</source>
            <translation>sein Foto ist zu groß; nehmen Sie eines unter 4 MB.</translation>
        </message>
    </context>
    <context>
        <name>viewer/shop/which_test.py</name>
        <message>
            <source>{area} mm² of class A need support or not, depending on a limit between {low} and {high}</source>
            <translation>{area} mm² der Klasse A brauchen Stützen oder nicht, je nach einem Grenzwert zwischen {low} und {high}</translation>
        </message>
        <message>
            <source>{area} mm² of class A are bridged or touched, depending on a limit between {low} and {high}</source>
            <translation>{area} mm² der Klasse A werden überbrückt oder gestützt, je nach einem Grenzwert zwischen {low} und {high}</translation>
        </message>
        <message>
            <source>{area} mm² of class A have terraces that may show: they show from between {low} and {high}</source>
            <translation>{area} mm² der Klasse A haben Treppen, die man vielleicht sieht: man sieht sie ab einer Breite zwischen {low} und {high}</translation>
        </message>
        <message>
            <source>supports touch class A, and how such a face comes out is known only between {low} and {high} (0 clean, 1 as broken off)</source>
            <translation>Stützen liegen an Klasse A an, und wie eine solche Fläche herauskommt, ist nur zwischen {low} und {high} bekannt (0 sauber, 1 wie abgebrochen)</translation>
        </message>
        <message>
            <source>{area} mm² of class A lie on a section that is {low} thick and {high} tall and may waver</source>
            <translation>{area} mm² der Klasse A liegen auf einem Abschnitt, der {low} dick und {high} hoch ist und schwanken kann</translation>
        </message>
        <message>
            <source> with {values}{unit}</source>
            <translation> mit {values}{unit}</translation>
        </message>
        <message>
            <source>{piece}{steps}, {minutes:.0f} min: {why}.</source>
            <translation>{piece}{steps}, {minutes:.0f} min: {why}.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/about_dialog.py</name>
        <message>
            <source>About Showside</source>
            <translation>Über Showside</translation>
        </message>
        <message>
            <source>About</source>
            <translation>Über</translation>
        </message>
        <message>
            <source>Licences</source>
            <translation>Lizenzen</translation>
        </message>
        <message>
            <source>Packages</source>
            <translation>Pakete</translation>
        </message>
        <message>
            <source>Choose one to read its licence</source>
            <translation>Wählen Sie eines, um seine Lizenz zu lesen</translation>
        </message>
        <message>
            <source>Text of the licence</source>
            <translation>Text der Lizenz</translation>
        </message>
        <message>
            <source>Licence: {name}</source>
            <translation>Lizenz: {name}</translation>
        </message>
        <message>
            <source>&lt;h2&gt;Showside {version}&lt;/h2&gt;&lt;p&gt;Lay a part so that the side that shows comes out clean.&lt;/p&gt;&lt;p&gt;Colours: Okabe and Ito 2008; Crameri 2018. Built with Qt (LGPL-3), VTK, PyVista and Open CASCADE Technology (LGPL-2.1 with exception). Qt and Open CASCADE lie beside the program as libraries of their own and may be exchanged for other builds.&lt;/p&gt;&lt;p&gt;The numbers assume straight upright supports: an estimate of where a print program will put its own.&lt;/p&gt;&lt;p&gt;Nothing of a part leaves this computer: the window opens no connection to the network.&lt;/p&gt;</source>
            <translation>&lt;h2&gt;Showside {version}&lt;/h2&gt;&lt;p&gt;Ein Teil so legen, dass die sichtbare Seite sauber herauskommt.&lt;/p&gt;&lt;p&gt;Farben: Okabe und Ito 2008; Crameri 2018. Gebaut mit Qt (LGPL-3), VTK, PyVista und Open CASCADE Technology (LGPL-2.1 mit Ausnahme). Qt und Open CASCADE liegen als eigene Bibliotheken neben dem Programm und dürfen gegen andere Fassungen ausgetauscht werden.&lt;/p&gt;&lt;p&gt;Die Zahlen gehen von geraden, aufrechten Stützen aus: eine Schätzung, wohin ein Druckprogramm seine setzt.&lt;/p&gt;&lt;p&gt;Nichts von einem Teil verlässt diesen Rechner: Das Fenster öffnet keine Verbindung zum Netz.&lt;/p&gt;</translation>
        </message>
        <message>
            <source>The package carries no text of its licence.</source>
            <translation>Das Paket bringt keinen Lizenztext mit.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/action_finder.py</name>
        <message>
            <source>Find an action</source>
            <translation>Befehl suchen</translation>
        </message>
        <message>
            <source>What do you want to do?</source>
            <translation>Was möchten Sie tun?</translation>
        </message>
        <message>
            <source>Name of the action</source>
            <translation>Name des Befehls</translation>
        </message>
        <message>
            <source>Actions found</source>
            <translation>Gefundene Befehle</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/action_table.py</name>
        <message>
            <source>&amp;File</source>
            <translation>&amp;Datei</translation>
        </message>
        <message>
            <source>&amp;Open …</source>
            <translation>&amp;Öffnen …</translation>
        </message>
        <message>
            <source>Open a newer &amp;version of this part …</source>
            <translation>Neuere &amp;Fassung dieses Teils öffnen …</translation>
        </message>
        <message>
            <source>Put the client's newer file in its place and carry the marks over; tells what of them has no place there</source>
            <translation>Die neuere Datei des Kunden an die Stelle setzen und die Markierungen übertragen; sagt, was davon dort keinen Platz hat</translation>
        </message>
        <message>
            <source>Open the &amp;demo</source>
            <translation>&amp;Beispiel öffnen</translation>
        </message>
        <message>
            <source>Open the &amp;faulty demo</source>
            <translation>Fehl&amp;erhaftes Beispiel öffnen</translation>
        </message>
        <message>
            <source>The same grip as received from its designer, with faults</source>
            <translation>Derselbe Griff, wie er vom Zeichner kam, mit Fehlern</translation>
        </message>
        <message>
            <source>&amp;Save the job</source>
            <translation>Auftrag &amp;speichern</translation>
        </message>
        <message>
            <source>Keep part, classes, pose, process</source>
            <translation>Teil, Klassen, Lage und Prozess aufbewahren</translation>
        </message>
        <message>
            <source>Save the job &amp;as …</source>
            <translation>Auftrag speichern &amp;unter …</translation>
        </message>
        <message>
            <source>Keep it in another file</source>
            <translation>In einer anderen Datei aufbewahren</translation>
        </message>
        <message>
            <source>&amp;Export the posed part</source>
            <translation>Gedrehtes Teil e&amp;xportieren</translation>
        </message>
        <message>
            <source>&amp;3MF …</source>
            <translation>&amp;3MF …</translation>
        </message>
        <message>
            <source>Posed part in mm with its classes as triangle sets</source>
            <translation>Gedrehtes Teil in mm mit seinen Klassen als Dreiecksmengen</translation>
        </message>
        <message>
            <source>Binary &amp;STL …</source>
            <translation>Binäres &amp;STL …</translation>
        </message>
        <message>
            <source>Posed part as triangles; classes are lost</source>
            <translation>Gedrehtes Teil als Dreiecke; die Klassen gehen verloren</translation>
        </message>
        <message>
            <source>&amp;OBJ …</source>
            <translation>&amp;OBJ …</translation>
        </message>
        <message>
            <source>Posed part as vertices and faces</source>
            <translation>Gedrehtes Teil als Ecken und Flächen</translation>
        </message>
        <message>
            <source>&amp;PLY …</source>
            <translation>&amp;PLY …</translation>
        </message>
        <message>
            <source>Posed part as vertices and faces, binary</source>
            <translation>Gedrehtes Teil als Ecken und Flächen, binär</translation>
        </message>
        <message>
            <source>&amp;Adaptive layers …</source>
            <translation>&amp;Angepasste Schichten …</translation>
        </message>
        <message>
            <source>Layers as thick as class A lets them be, for this pose, as a table (CSV)</source>
            <translation>Schichten so dick, wie Klasse A es zulässt, für diese Lage, als Tabelle (CSV)</translation>
        </message>
        <message>
            <source>The file's own &amp;triangles</source>
            <translation>Eigene &amp;Dreiecke der Datei</translation>
        </message>
        <message>
            <source>Write the triangles of the file, each with the class of most of it; otherwise the finer ones that marks are cut in</source>
            <translation>Die Dreiecke der Datei schreiben, jedes mit der Klasse seines größten Stücks; sonst die feineren, in die Markierungen geschnitten sind</translation>
        </message>
        <message>
            <source>&amp;Pictures</source>
            <translation>Bi&amp;lder</translation>
        </message>
        <message>
            <source>Save a &amp;picture …</source>
            <translation>&amp;Bild speichern …</translation>
        </message>
        <message>
            <source>What the scene shows, with its legend, as a PNG</source>
            <translation>Was die Szene zeigt, mit ihrer Legende, als PNG</translation>
        </message>
        <message>
            <source>Save a &amp;turntable …</source>
            <translation>&amp;Drehbild speichern …</translation>
        </message>
        <message>
            <source>The part going round once, as an animated GIF or WebP up to 960 pixels wide</source>
            <translation>Das Teil einmal herumgedreht, als bewegtes GIF oder WebP bis 960 Bildpunkte breit</translation>
        </message>
        <message>
            <source>Small pictures</source>
            <translation>Kleine Bilder</translation>
        </message>
        <message>
            <source>Pictures for most screens</source>
            <translation>Bilder für die meisten Bildschirme</translation>
        </message>
        <message>
            <source>Large pictures, for print</source>
            <translation>Große Bilder, zum Drucken</translation>
        </message>
        <message>
            <source>Client s&amp;heet</source>
            <translation>&amp;Kundenblatt</translation>
        </message>
        <message>
            <source>&amp;Look at the sheet …</source>
            <translation>Kundenblatt &amp;ansehen …</translation>
        </message>
        <message>
            <source>The pages as the client will get them, for this pose</source>
            <translation>Die Seiten, wie der Auftraggeber sie bekommt, für diese Lage</translation>
        </message>
        <message>
            <source>&amp;Save the sheet …</source>
            <translation>Kundenblatt &amp;speichern …</translation>
        </message>
        <message>
            <source>As PDF, or as one HTML file in which the part can be turned</source>
            <translation>Als PDF oder als eine HTML-Datei, in der sich das Teil drehen lässt</translation>
        </message>
        <message>
            <source>&amp;Print the sheet …</source>
            <translation>Kundenblatt &amp;drucken …</translation>
        </message>
        <message>
            <source>On a printer, in its own dialog</source>
            <translation>Auf einem Drucker, in dessen eigenem Dialog</translation>
        </message>
        <message>
            <source>Your &amp;company …</source>
            <translation>Ihre &amp;Firma …</translation>
        </message>
        <message>
            <source>Name, logo and currency that stand on the sheet</source>
            <translation>Name, Logo und Währung, die auf dem Kundenblatt stehen</translation>
        </message>
        <message>
            <source>Pac&amp;k the job …</source>
            <translation>Auftrag &amp;packen …</translation>
        </message>
        <message>
            <source>Posed part, supports, test pieces, layers, client sheets and job in one folder or zip, each read back and with its checksum</source>
            <translation>Gelegtes Teil, Stützen, Probestücke, Schichten, Kundenblätter und Auftrag in einem Ordner oder Zip, alles zurückgelesen und mit Prüfsumme</translation>
        </message>
        <message>
            <source>Recover &amp;unsaved work …</source>
            <translation>Ungespeicherte Arbeit wieder&amp;herstellen …</translation>
        </message>
        <message>
            <source>Of a window that came to a sudden end</source>
            <translation>Aus einem Fenster, das plötzlich endete</translation>
        </message>
        <message>
            <source>&amp;Quit</source>
            <translation>Beende&amp;n</translation>
        </message>
        <message>
            <source>Close the window</source>
            <translation>Das Fenster schließen</translation>
        </message>
        <message>
            <source>&amp;Edit</source>
            <translation>&amp;Bearbeiten</translation>
        </message>
        <message>
            <source>&amp;Undo</source>
            <translation>&amp;Rückgängig</translation>
        </message>
        <message>
            <source>Take back the last step</source>
            <translation>Den letzten Schritt zurücknehmen</translation>
        </message>
        <message>
            <source>&amp;Redo</source>
            <translation>&amp;Wiederherstellen</translation>
        </message>
        <message>
            <source>Bring it back</source>
            <translation>Den Schritt zurückholen</translation>
        </message>
        <message>
            <source>&amp;Look for ways to mend</source>
            <translation>Wege zum &amp;Ausbessern suchen</translation>
        </message>
        <message>
            <source>Choose steps that mend the part, and see what each would change</source>
            <translation>Schritte wählen, die das Teil ausbessern, und sehen, was jeder ändern würde</translation>
        </message>
        <message>
            <source>&amp;Mend what is safe</source>
            <translation>&amp;Sicheres ausbessern</translation>
        </message>
        <message>
            <source>Take the harmless steps that come next in one go</source>
            <translation>Die nächsten harmlosen Schritte in einem Zug gehen</translation>
        </message>
        <message>
            <source>&amp;Back to the part as received</source>
            <translation>&amp;Zurück zum Teil wie erhalten</translation>
        </message>
        <message>
            <source>Lay the part as it was read in place of the mended one</source>
            <translation>Das Teil, wie es gelesen wurde, an die Stelle des ausgebesserten setzen</translation>
        </message>
        <message>
            <source>&amp;Help</source>
            <translation>&amp;Hilfe</translation>
        </message>
        <message>
            <source>Help &amp;on this</source>
            <translation>Hilfe &amp;hierzu</translation>
        </message>
        <message>
            <source>Opens the help at what has the focus</source>
            <translation>Öffnet die Hilfe bei dem, was den Fokus hat</translation>
        </message>
        <message>
            <source>&amp;Find an action …</source>
            <translation>&amp;Befehl suchen …</translation>
        </message>
        <message>
            <source>Type its name</source>
            <translation>Seinen Namen eingeben</translation>
        </message>
        <message>
            <source>&amp;How it measures</source>
            <translation>Wie es &amp;misst</translation>
        </message>
        <message>
            <source>Each number in plain words</source>
            <translation>Jede Zahl in einfachen Worten</translation>
        </message>
        <message>
            <source>How it m&amp;ends</source>
            <translation>Wie es &amp;ausbessert</translation>
        </message>
        <message>
            <source>Each step of mending in plain words</source>
            <translation>Jeder Schritt des Ausbesserns in einfachen Worten</translation>
        </message>
        <message>
            <source>How mar&amp;king works</source>
            <translation>Wie das Ma&amp;rkieren geht</translation>
        </message>
        <message>
            <source>Each way to mark in plain words, and newer versions of a part</source>
            <translation>Jede Art zu markieren in einfachen Worten, und neuere Fassungen eines Teils</translation>
        </message>
        <message>
            <source>How it &amp;searches directions</source>
            <translation>Wie es Richtungen &amp;sucht</translation>
        </message>
        <message>
            <source>How every direction is measured, ranked and cut</source>
            <translation>Wie jede Richtung gemessen, gereiht und verworfen wird</translation>
        </message>
        <message>
            <source>How &amp;comparing works</source>
            <translation>Wie das &amp;Vergleichen geht</translation>
        </message>
        <message>
            <source>Poses side by side, the lens Difference, calls, pictures and turntables</source>
            <translation>Lagen nebeneinander, die Ansicht Differenz, Vorführungen, Bilder und Drehbilder</translation>
        </message>
        <message>
            <source>How the shop &amp;reckons</source>
            <translation>Wie die Werkstatt re&amp;chnet</translation>
        </message>
        <message>
            <source>Where time, money, fit and risks come from</source>
            <translation>Woher Zeit, Geld, Passen und Risiken kommen</translation>
        </message>
        <message>
            <source>How trials &amp;teach</source>
            <translation>Wie Versuche &amp;lehren</translation>
        </message>
        <message>
            <source>Which test pays, writing results down, and what they change</source>
            <translation>Welche Probe sich lohnt, Ergebnisse aufschreiben, und was sie ändern</translation>
        </message>
        <message>
            <source>&amp;Mouse and keys</source>
            <translation>Maus &amp;und Tasten</translation>
        </message>
        <message>
            <source>What the buttons do</source>
            <translation>Was die Tasten tun</translation>
        </message>
        <message>
            <source>&amp;About Showside</source>
            <translation>&amp;Über Showside</translation>
        </message>
        <message>
            <source>Version and licences</source>
            <translation>Fassung und Lizenzen</translation>
        </message>
        <message>
            <source>&amp;Settings …</source>
            <translation>&amp;Einstellungen …</translation>
        </message>
        <message>
            <source>Language, theme, type, pointer, units</source>
            <translation>Sprache, Farben, Schrift, Mauszeiger, Einheiten</translation>
        </message>
        <message>
            <source>&amp;Keys and shortcuts …</source>
            <translation>&amp;Tasten und Kürzel …</translation>
        </message>
        <message>
            <source>Every action with its keys, to look up and to change</source>
            <translation>Jeder Befehl mit seinen Tasten, zum Nachsehen und Ändern</translation>
        </message>
        <message>
            <source>F&amp;irst page …</source>
            <translation>Erste Se&amp;ite …</translation>
        </message>
        <message>
            <source>What the program is for, and the way into the demo</source>
            <translation>Wozu das Programm da ist, und der Weg in die Demo</translation>
        </message>
        <message>
            <source>Show the lo&amp;g folder</source>
            <translation>Ordner des &amp;Protokolls zeigen</translation>
        </message>
        <message>
            <source>Where the log file and texts of errors lie</source>
            <translation>Wo Protokoll und Fehlertexte liegen</translation>
        </message>
        <message>
            <source>Text of the &amp;last error …</source>
            <translation>&amp;Text des letzten Fehlers …</translation>
        </message>
        <message>
            <source>What is kept of the last unexpected error; nothing of a part is in it</source>
            <translation>Was vom letzten unerwarteten Fehler aufbewahrt ist; nichts von einem Teil steht darin</translation>
        </message>
        <message>
            <source>&amp;Stage</source>
            <translation>&amp;Stufe</translation>
        </message>
        <message>
            <source>&amp;1 Check</source>
            <translation>&amp;1 Prüfen</translation>
        </message>
        <message>
            <source>Go to the stage Check</source>
            <translation>Zur Stufe Prüfen gehen</translation>
        </message>
        <message>
            <source>&amp;2 Mark</source>
            <translation>&amp;2 Markieren</translation>
        </message>
        <message>
            <source>Go to the stage Mark</source>
            <translation>Zur Stufe Markieren gehen</translation>
        </message>
        <message>
            <source>&amp;3 Turn</source>
            <translation>&amp;3 Drehen</translation>
        </message>
        <message>
            <source>Go to the stage Turn</source>
            <translation>Zur Stufe Drehen gehen</translation>
        </message>
        <message>
            <source>&amp;4 Try</source>
            <translation>&amp;4 Erproben</translation>
        </message>
        <message>
            <source>Go to the stage Try</source>
            <translation>Zur Stufe Erproben gehen</translation>
        </message>
        <message>
            <source>&amp;5 Hand over</source>
            <translation>&amp;5 Übergeben</translation>
        </message>
        <message>
            <source>Go to the stage Hand over</source>
            <translation>Zur Stufe Übergeben gehen</translation>
        </message>
        <message>
            <source>&amp;Mark</source>
            <translation>&amp;Markieren</translation>
        </message>
        <message>
            <source>As class &amp;A</source>
            <translation>Als Klasse &amp;A</translation>
        </message>
        <message>
            <source>Faces always in view</source>
            <translation>Flächen, die immer im Blick sind</translation>
        </message>
        <message>
            <source>As class &amp;B</source>
            <translation>Als Klasse &amp;B</translation>
        </message>
        <message>
            <source>Faces seen in use</source>
            <translation>Flächen, die im Gebrauch zu sehen sind</translation>
        </message>
        <message>
            <source>&amp;Erase</source>
            <translation>Rad&amp;ieren</translation>
        </message>
        <message>
            <source>Make faces unmarked</source>
            <translation>Markierung von Flächen nehmen</translation>
        </message>
        <message>
            <source>B&amp;rush</source>
            <translation>&amp;Pinsel</translation>
        </message>
        <message>
            <source>Round brush</source>
            <translation>Runder Pinsel</translation>
        </message>
        <message>
            <source>Up to a &amp;crease</source>
            <translation>Bis zur &amp;Kante</translation>
        </message>
        <message>
            <source>Fill up to sharp edges</source>
            <translation>Bis an scharfe Kanten füllen</translation>
        </message>
        <message>
            <source>Whole &amp;patch</source>
            <translation>Ganzer &amp;Flicken</translation>
        </message>
        <message>
            <source>Smooth region or CAD face</source>
            <translation>Glatter Bereich oder CAD-Fläche</translation>
        </message>
        <message>
            <source>Ban&amp;d of heights</source>
            <translation>&amp;Höhenband</translation>
        </message>
        <message>
            <source>Between two heights</source>
            <translation>Zwischen zwei Höhen</translation>
        </message>
        <message>
            <source>Lass&amp;o</source>
            <translation>&amp;Lasso</translation>
        </message>
        <message>
            <source>Drag a loop on the screen</source>
            <translation>Auf dem Bildschirm eine Schleife ziehen</translation>
        </message>
        <message>
            <source>&amp;What is seen from here</source>
            <translation>&amp;Was von hier zu sehen ist</translation>
        </message>
        <message>
            <source>Its button beside the scene</source>
            <translation>Seine Schaltfläche neben der Szene</translation>
        </message>
        <message>
            <source>What is seen in &amp;use</source>
            <translation>Was im &amp;Gebrauch zu sehen ist</translation>
        </message>
        <message>
            <source>Its button and viewpoints beside the scene</source>
            <translation>Schaltfläche und Blickpunkte neben der Szene</translation>
        </message>
        <message>
            <source>Chan&amp;ge marks there are</source>
            <translation>&amp;Vorhandene Markierungen ändern</translation>
        </message>
        <message>
            <source>Grow, shrink, smooth, mirror, exchange, beside the scene</source>
            <translation>Weiten, engen, glätten, spiegeln, tauschen, neben der Szene</translation>
        </message>
        <message>
            <source>&amp;Larger brush</source>
            <translation>G&amp;rößerer Pinsel</translation>
        </message>
        <message>
            <source>Brush one step larger</source>
            <translation>Pinsel eine Stufe größer</translation>
        </message>
        <message>
            <source>&amp;Smaller brush</source>
            <translation>Kl&amp;einerer Pinsel</translation>
        </message>
        <message>
            <source>Brush one step smaller</source>
            <translation>Pinsel eine Stufe kleiner</translation>
        </message>
        <message>
            <source>Lasso &amp;through the part</source>
            <translation>Lasso &amp;durch das Teil</translation>
        </message>
        <message>
            <source>Also mark what the part itself hides</source>
            <translation>Auch markieren, was das Teil selbst verdeckt</translation>
        </message>
        <message>
            <source>&amp;Mark the band</source>
            <translation>Ba&amp;nd markieren</translation>
        </message>
        <message>
            <source>Every face between the two heights over the platform</source>
            <translation>Jede Fläche zwischen den beiden Höhen über der Bauplattform</translation>
        </message>
        <message>
            <source>Mark what is seen from &amp;here</source>
            <translation>Von hier &amp;Sichtbares</translation>
        </message>
        <message>
            <source>Every face that can be seen from where you look now</source>
            <translation>Jede Fläche, die von Ihrem jetzigen Blickpunkt zu sehen ist</translation>
        </message>
        <message>
            <source>Mark what is seen &amp;in use</source>
            <translation>Im Gebrauch Si&amp;chtbares</translation>
        </message>
        <message>
            <source>Every face that can be seen from a circle of viewpoints round the part</source>
            <translation>Jede Fläche, die von einem Kreis von Blickpunkten um das Teil zu sehen ist</translation>
        </message>
        <message>
            <source>Change the mar&amp;ks</source>
            <translation>Markierungen &amp;ändern</translation>
        </message>
        <message>
            <source>&amp;Grow</source>
            <translation>&amp;Weiten</translation>
        </message>
        <message>
            <source>Widen the class chosen under Mark as, all along its border</source>
            <translation>Die unter Markieren als gewählte Klasse entlang ihrem ganzen Rand verbreitern</translation>
        </message>
        <message>
            <source>&amp;Shrink</source>
            <translation>&amp;Engen</translation>
        </message>
        <message>
            <source>Narrow the class chosen under Mark as, all along its border</source>
            <translation>Die unter Markieren als gewählte Klasse entlang ihrem ganzen Rand verschmälern</translation>
        </message>
        <message>
            <source>S&amp;mooth</source>
            <translation>&amp;Glätten</translation>
        </message>
        <message>
            <source>Round the borders of all marks: narrow spikes and notches go</source>
            <translation>Die Ränder aller Markierungen runden: schmale Zacken und Kerben verschwinden</translation>
        </message>
        <message>
            <source>M&amp;irror the marks</source>
            <translation>Markierungen s&amp;piegeln</translation>
        </message>
        <message>
            <source>Mark one half of the part like the mirror image of the other</source>
            <translation>Eine Hälfte des Teils wie das Spiegelbild der anderen markieren</translation>
        </message>
        <message>
            <source>&amp;Exchange A and B</source>
            <translation>A und B &amp;tauschen</translation>
        </message>
        <message>
            <source>What was class A becomes class B, and the reverse</source>
            <translation>Was Klasse A war, wird Klasse B, und umgekehrt</translation>
        </message>
        <message>
            <source>Outline what is &amp;new</source>
            <translation>Ne&amp;ues umranden</translation>
        </message>
        <message>
            <source>Outline the places of the newer version on which the old one had no surface, so that no mark could be carried over</source>
            <translation>Die Stellen der neueren Fassung umranden, an denen die alte keine Oberfläche hatte, sodass sich keine Markierung übertragen ließ</translation>
        </message>
        <message>
            <source>Unmark all &amp;faces</source>
            <translation>Alle &amp;Markierungen löschen</translation>
        </message>
        <message>
            <source>Start marking anew</source>
            <translation>Das Markieren neu beginnen</translation>
        </message>
        <message>
            <source>&amp;Turn</source>
            <translation>D&amp;rehen</translation>
        </message>
        <message>
            <source>With the &amp;rings</source>
            <translation>Mit den &amp;Ringen</translation>
        </message>
        <message>
            <source>Drag rings to turn</source>
            <translation>Zum Drehen an Ringen ziehen</translation>
        </message>
        <message>
            <source>&amp;Stand on a face</source>
            <translation>Auf eine Fläche &amp;stellen</translation>
        </message>
        <message>
            <source>Click the face to lie down</source>
            <translation>Die Fläche anklicken, die unten liegen soll</translation>
        </message>
        <message>
            <source>&amp;Quarter turns</source>
            <translation>&amp;Vierteldrehungen</translation>
        </message>
        <message>
            <source>About X by +90°</source>
            <translation>Um X um +90°</translation>
        </message>
        <message>
            <source>A quarter turn about the platform's X</source>
            <translation>Eine Vierteldrehung um die X-Achse der Bauplattform</translation>
        </message>
        <message>
            <source>About X by −90°</source>
            <translation>Um X um −90°</translation>
        </message>
        <message>
            <source>About Y by +90°</source>
            <translation>Um Y um +90°</translation>
        </message>
        <message>
            <source>A quarter turn about the platform's Y</source>
            <translation>Eine Vierteldrehung um die Y-Achse der Bauplattform</translation>
        </message>
        <message>
            <source>About Y by −90°</source>
            <translation>Um Y um −90°</translation>
        </message>
        <message>
            <source>About Z by +90°</source>
            <translation>Um Z um +90°</translation>
        </message>
        <message>
            <source>A quarter turn about the platform's Z</source>
            <translation>Eine Vierteldrehung um die Z-Achse der Bauplattform</translation>
        </message>
        <message>
            <source>About Z by −90°</source>
            <translation>Um Z um −90°</translation>
        </message>
        <message>
            <source>&amp;As in the file</source>
            <translation>Wie in der &amp;Datei</translation>
        </message>
        <message>
            <source>Back to the pose of the file</source>
            <translation>Zurück zur Lage in der Datei</translation>
        </message>
        <message>
            <source>Every &amp;direction</source>
            <translation>&amp;Jede Richtung</translation>
        </message>
        <message>
            <source>&amp;Search every direction</source>
            <translation>Jede &amp;Richtung absuchen</translation>
        </message>
        <message>
            <source>Measure every build direction beside the window, and rank them</source>
            <translation>Jede Baurichtung neben dem Fenster messen und nach Güte ordnen</translation>
        </message>
        <message>
            <source>Direction &amp;map</source>
            <translation>Richtungs&amp;karte</translation>
        </message>
        <message>
            <source>Every build direction at once under the scene, coloured</source>
            <translation>Alle Baurichtungen auf einmal unter der Szene, eingefärbt</translation>
        </message>
        <message>
            <source>Map as a &amp;globe</source>
            <translation>Karte als &amp;Globus</translation>
        </message>
        <message>
            <source>The same colours on a globe round the part; its top is the build direction</source>
            <translation>Dieselben Farben auf einem Globus um das Teil; oben ist die Baurichtung</translation>
        </message>
        <message>
            <source>&amp;Next result</source>
            <translation>&amp;Nächstes Ergebnis</translation>
        </message>
        <message>
            <source>Lay the part like the next best direction found</source>
            <translation>Das Teil wie die nächstbeste gefundene Richtung legen</translation>
        </message>
        <message>
            <source>&amp;Previous result</source>
            <translation>&amp;Voriges Ergebnis</translation>
        </message>
        <message>
            <source>Lay it like the one before</source>
            <translation>Es wie das davor legen</translation>
        </message>
        <message>
            <source>&amp;Compare ticked results</source>
            <translation>&amp;Angehakte Ergebnisse vergleichen</translation>
        </message>
        <message>
            <source>Show two to four ticked results of the search side by side</source>
            <translation>Zwei bis vier angehakte Ergebnisse der Suche nebeneinander zeigen</translation>
        </message>
        <message>
            <source>&amp;Keep ticked results</source>
            <translation>Angehakte Ergebnisse &amp;merken</translation>
        </message>
        <message>
            <source>Sp&amp;in</source>
            <translation>Drehun&amp;g</translation>
        </message>
        <message>
            <source>&amp;Least platform rectangle</source>
            <translation>Kleinstes Plattform&amp;rechteck</translation>
        </message>
        <message>
            <source>Spin the part so that it takes the least rectangle of the platform</source>
            <translation>Das Teil so drehen, dass es das kleinste Rechteck der Plattform braucht</translation>
        </message>
        <message>
            <source>Seam &amp;away from class A</source>
            <translation>&amp;Naht abseits von Klasse A</translation>
        </message>
        <message>
            <source>Turn the side with the least of class A to the back of the machine, where each layer begins</source>
            <translation>Die Seite mit der wenigsten Klasse A nach hinten in der Maschine drehen, wo jede Schicht beginnt</translation>
        </message>
        <message>
            <source>&amp;Seam on the side in view</source>
            <translation>Naht auf der &amp;sichtbaren Seite</translation>
        </message>
        <message>
            <source>Turn the side that you look at to the back of the machine, where each layer begins</source>
            <translation>Die Seite, auf die Sie sehen, nach hinten in der Maschine drehen, wo jede Schicht beginnt</translation>
        </message>
        <message>
            <source>&amp;Walls along X or Y</source>
            <translation>&amp;Wände längs X oder Y</translation>
        </message>
        <message>
            <source>Lay the longest walls of class A along an axis, so that no pattern of both axes shows on them</source>
            <translation>Die längsten Wände der Klasse A längs einer Achse legen, damit kein Muster beider Achsen auf ihnen zu sehen ist</translation>
        </message>
        <message>
            <source>&amp;Keep the spin</source>
            <translation>Drehun&amp;g behalten</translation>
        </message>
        <message>
            <source>Leave the spin as it is when going to another direction, which otherwise takes the least rectangle</source>
            <translation>Die Drehung lassen, wie sie ist, wenn es in eine andere Richtung geht; sonst gilt das kleinste Rechteck</translation>
        </message>
        <message>
            <source>&amp;Pin this pose</source>
            <translation>Diese Lage &amp;anheften</translation>
        </message>
        <message>
            <source>Compare every other pose with this one</source>
            <translation>Jede andere Lage mit dieser vergleichen</translation>
        </message>
        <message>
            <source>&amp;Unpin</source>
            <translation>&amp;Lösen</translation>
        </message>
        <message>
            <source>Compare with nothing</source>
            <translation>Mit nichts vergleichen</translation>
        </message>
        <message>
            <source>&amp;Go to the pinned pose</source>
            <translation>&amp;Zur angehefteten Lage</translation>
        </message>
        <message>
            <source>Lay the part as pinned</source>
            <translation>Das Teil legen wie angeheftet</translation>
        </message>
        <message>
            <source>S&amp;wap with the pinned pose</source>
            <translation>Mit der angehefteten Lage &amp;tauschen</translation>
        </message>
        <message>
            <source>Lay the part as pinned and pin the pose it had; again swaps back</source>
            <translation>Das Teil legen wie angeheftet und seine bisherige Lage anheften; noch einmal tauscht zurück</translation>
        </message>
        <message>
            <source>&amp;Compare side by side</source>
            <translation>&amp;Nebeneinander vergleichen</translation>
        </message>
        <message>
            <source>Two to four poses beside one another with a table of their numbers; keep or pin one first</source>
            <translation>Zwei bis vier Lagen nebeneinander mit einer Tabelle ihrer Zahlen; merken oder heften Sie zuerst eine an</translation>
        </message>
        <message>
            <source>&amp;Keep this pose</source>
            <translation>Diese Lage &amp;merken</translation>
        </message>
        <message>
            <source>Put this pose on the list to show one after the other</source>
            <translation>Diese Lage auf die Liste setzen, um eine nach der anderen zu zeigen</translation>
        </message>
        <message>
            <source>Kept p&amp;oses</source>
            <translation>G&amp;emerkte Lagen</translation>
        </message>
        <message>
            <source>&amp;Next kept pose</source>
            <translation>&amp;Nächste gemerkte Lage</translation>
        </message>
        <message>
            <source>Lay the part as the next on it</source>
            <translation>Das Teil legen wie als Nächstes auf der Liste</translation>
        </message>
        <message>
            <source>&amp;Previous kept pose</source>
            <translation>&amp;Vorige gemerkte Lage</translation>
        </message>
        <message>
            <source>Lay it as the one before</source>
            <translation>Das Teil legen wie zuvor auf der Liste</translation>
        </message>
        <message>
            <source>&amp;Rename the kept pose</source>
            <translation>Gemerkte Lage um&amp;benennen</translation>
        </message>
        <message>
            <source>Give it a name of its own</source>
            <translation>Ihr einen eigenen Namen geben</translation>
        </message>
        <message>
            <source>N&amp;ote on the kept pose</source>
            <translation>No&amp;tiz zur gemerkten Lage</translation>
        </message>
        <message>
            <source>Write down why it is kept</source>
            <translation>Aufschreiben, warum sie gemerkt ist</translation>
        </message>
        <message>
            <source>Move it &amp;up the list</source>
            <translation>Auf der Liste nach &amp;oben</translation>
        </message>
        <message>
            <source>Earlier in the list</source>
            <translation>Früher auf der Liste</translation>
        </message>
        <message>
            <source>Move it &amp;down the list</source>
            <translation>Auf der Liste nach &amp;unten</translation>
        </message>
        <message>
            <source>Later in the list</source>
            <translation>Später auf der Liste</translation>
        </message>
        <message>
            <source>E&amp;xport the kept poses …</source>
            <translation>Gemerkte Lagen e&amp;xportieren …</translation>
        </message>
        <message>
            <source>As a table (CSV) with name, note, direction, spin and numbers of each</source>
            <translation>Als Tabelle (CSV) mit Name, Notiz, Richtung, Drehung und Zahlen jeder Lage</translation>
        </message>
        <message>
            <source>Re&amp;move the kept pose</source>
            <translation>Gemerkte Lage &amp;entfernen</translation>
        </message>
        <message>
            <source>Take it off the list</source>
            <translation>Sie von der Liste nehmen</translation>
        </message>
        <message>
            <source>Sh&amp;op</source>
            <translation>&amp;Werkstatt</translation>
        </message>
        <message>
            <source>&amp;Numbers of the shop</source>
            <translation>&amp;Zahlen der Werkstatt</translation>
        </message>
        <message>
            <source>Open or close time, money, fit, risks and cautions below the numbers</source>
            <translation>Zeit, Geld, Platz, Risiken und Warnhinweise unter den Zahlen öffnen oder schließen</translation>
        </message>
        <message>
            <source>&amp;Machines and materials …</source>
            <translation>&amp;Maschinen und Materialien …</translation>
        </message>
        <message>
            <source>Your own machines, materials, pairs and processes in a form</source>
            <translation>Ihre eigenen Maschinen, Materialien, Paarungen und Prozesse in einem Formular</translation>
        </message>
        <message>
            <source>&amp;Compare machines …</source>
            <translation>Maschinen &amp;vergleichen …</translation>
        </message>
        <message>
            <source>The same job on every machine and with every pair, side by side</source>
            <translation>Derselbe Auftrag auf jeder Maschine und mit jeder Paarung, nebeneinander</translation>
        </message>
        <message>
            <source>&amp;Finished prints …</source>
            <translation>&amp;Fertige Drucke …</translation>
        </message>
        <message>
            <source>What prints really took, which corrects the estimate and narrows its range</source>
            <translation>Was Drucke wirklich brauchten; das berichtigt die Schätzung und engt ihren Bereich ein</translation>
        </message>
        <message>
            <source>&amp;Turn to fit</source>
            <translation>Passend &amp;drehen</translation>
        </message>
        <message>
            <source>Spin the part until it fits the chosen machine</source>
            <translation>Das Teil drehen, bis es in die gewählte Maschine passt</translation>
        </message>
        <message>
            <source>Test &amp;pieces beside the part …</source>
            <translation>&amp;Probestücke neben dem Teil …</translation>
        </message>
        <message>
            <source>Which of the job's test pieces stand on the platform with it</source>
            <translation>Welche Probestücke des Auftrags mit auf der Bauplattform stehen</translation>
        </message>
        <message>
            <source>Tr&amp;y</source>
            <translation>&amp;Proben</translation>
        </message>
        <message>
            <source>&amp;Quarters</source>
            <translation>&amp;Viertel</translation>
        </message>
        <message>
            <source>Cut the part by two upright planes; drag them in the scene</source>
            <translation>Das Teil mit zwei senkrechten Ebenen schneiden; in der Szene verschiebbar</translation>
        </message>
        <message>
            <source>Sla&amp;b</source>
            <translation>&amp;Scheibe</translation>
        </message>
        <message>
            <source>Cut out what lies between two heights</source>
            <translation>Herausschneiden, was zwischen zwei Höhen liegt</translation>
        </message>
        <message>
            <source>Bo&amp;x</source>
            <translation>&amp;Kasten</translation>
        </message>
        <message>
            <source>Cut out what lies in a box; drag its sides in the scene</source>
            <translation>Herausschneiden, was in einem Kasten liegt; seine Seiten lassen sich in der Szene ziehen</translation>
        </message>
        <message>
            <source>&amp;Worst touch</source>
            <translation>Schlimmster K&amp;ontakt</translation>
        </message>
        <message>
            <source>Put the box around the largest touch on class A in this pose</source>
            <translation>Den Kasten um den größten Stützkontakt auf Klasse A in dieser Lage legen</translation>
        </message>
        <message>
            <source>Worst &amp;terrace</source>
            <translation>Schlimmste &amp;Treppe</translation>
        </message>
        <message>
            <source>Put the box around the largest terraces on class A in this pose</source>
            <translation>Den Kasten um die größten Treppenstufen auf Klasse A in dieser Lage legen</translation>
        </message>
        <message>
            <source>&amp;Move the cut</source>
            <translation>Schnitt verschie&amp;ben</translation>
        </message>
        <message>
            <source>To the &amp;left</source>
            <translation>Nach &amp;links</translation>
        </message>
        <message>
            <source>Move the cut by one millimetre</source>
            <translation>Den Schnitt um einen Millimeter verschieben</translation>
        </message>
        <message>
            <source>To the &amp;right</source>
            <translation>Nach &amp;rechts</translation>
        </message>
        <message>
            <source>To the &amp;front</source>
            <translation>Nach &amp;vorn</translation>
        </message>
        <message>
            <source>To the &amp;back</source>
            <translation>Nach &amp;hinten</translation>
        </message>
        <message>
            <source>&amp;Up</source>
            <translation>&amp;Aufwärts</translation>
        </message>
        <message>
            <source>&amp;Down</source>
            <translation>A&amp;bwärts</translation>
        </message>
        <message>
            <source>Split &amp;for real</source>
            <translation>Im E&amp;rnst teilen</translation>
        </message>
        <message>
            <source>Look for a plane that parts the piece to be made without crossing class A, and see whether it is worth while</source>
            <translation>Eine Ebene suchen, die das endgültige Teil teilt, ohne Klasse A zu schneiden, und sehen, ob es sich lohnt</translation>
        </message>
        <message>
            <source>Next place to spl&amp;it</source>
            <translation>Nä&amp;chste Stelle zum Teilen</translation>
        </message>
        <message>
            <source>Split at the next of the places found</source>
            <translation>An der nächsten gefundenen Stelle teilen</translation>
        </message>
        <message>
            <source>Ta&amp;ke the pieces</source>
            <translation>Stücke über&amp;nehmen</translation>
        </message>
        <message>
            <source>Put what the cut makes on the list of pieces</source>
            <translation>Was der Schnitt ergibt, auf die Liste der Stücke setzen</translation>
        </message>
        <message>
            <source>Put the cut &amp;away</source>
            <translation>Schnitt &amp;weglegen</translation>
        </message>
        <message>
            <source>Plan no cut any more</source>
            <translation>Keinen Schnitt mehr planen</translation>
        </message>
        <message>
            <source>Show a &amp;specimen</source>
            <translation>&amp;Probekörper zeigen</translation>
        </message>
        <message>
            <source>Make the chosen specimen and see it beside the part</source>
            <translation>Den gewählten Probekörper machen und neben dem Teil sehen</translation>
        </message>
        <message>
            <source>A&amp;dd the specimen</source>
            <translation>Probekörper &amp;hinzufügen</translation>
        </message>
        <message>
            <source>Put the specimen on the list of pieces</source>
            <translation>Den Probekörper auf die Liste der Stücke setzen</translation>
        </message>
        <message>
            <source>&amp;Usual steps</source>
            <translation>Übl&amp;iche Stufen</translation>
        </message>
        <message>
            <source>The steps that suit the chosen machine, pair and process</source>
            <translation>Die Stufen, die zu Maschine, Paar und Prozess passen</translation>
        </message>
        <message>
            <source>&amp;Next piece</source>
            <translation>N&amp;ächstes Stück</translation>
        </message>
        <message>
            <source>Choose the next piece of the job, and see it beside the part</source>
            <translation>Das nächste Stück des Auftrags wählen und neben dem Teil sehen</translation>
        </message>
        <message>
            <source>&amp;Rename the piece</source>
            <translation>Stück &amp;umbenennen</translation>
        </message>
        <message>
            <source>Give the chosen piece a name of its own</source>
            <translation>Dem gewählten Stück einen eigenen Namen geben</translation>
        </message>
        <message>
            <source>&amp;Open the piece as a part</source>
            <translation>Stück als Teil ö&amp;ffnen</translation>
        </message>
        <message>
            <source>Open the chosen piece as a job of its own, with its marks and its pose</source>
            <translation>Das gewählte Stück als eigenen Auftrag öffnen, mit seinen Markierungen und seiner Lage</translation>
        </message>
        <message>
            <source>Remove the pie&amp;ce</source>
            <translation>St&amp;ück entfernen</translation>
        </message>
        <message>
            <source>Take the chosen piece off the list</source>
            <translation>Das gewählte Stück von der Liste nehmen</translation>
        </message>
        <message>
            <source>Sa&amp;ve pieces</source>
            <translation>Stücke sp&amp;eichern</translation>
        </message>
        <message>
            <source>The chosen one as &amp;3MF …</source>
            <translation>Das gewählte als &amp;3MF …</translation>
        </message>
        <message>
            <source>As it stands, with its classes</source>
            <translation>Wie es steht, mit seinen Klassen</translation>
        </message>
        <message>
            <source>The chosen one as &amp;STL …</source>
            <translation>Das gewählte als &amp;STL …</translation>
        </message>
        <message>
            <source>As it stands; of several bodies each has a file of its own</source>
            <translation>Wie es steht; von mehreren Körpern hat jeder eine eigene Datei</translation>
        </message>
        <message>
            <source>&amp;All as 3MF …</source>
            <translation>&amp;Alle als 3MF …</translation>
        </message>
        <message>
            <source>Each piece of the job in a file of a folder</source>
            <translation>Jedes Stück des Auftrags in einer Datei eines Ordners</translation>
        </message>
        <message>
            <source>A&amp;ll as STL …</source>
            <translation>A&amp;lle als STL …</translation>
        </message>
        <message>
            <source>Each piece of the job in files of a folder</source>
            <translation>Jedes Stück des Auftrags in Dateien eines Ordners</translation>
        </message>
        <message>
            <source>Take the test that &amp;pays most</source>
            <translation>Die &amp;lohnendste Probe nehmen</translation>
        </message>
        <message>
            <source>Put the piece that decides most class A in an hour on the list of pieces</source>
            <translation>Das Stück, das je Stunde am meisten Klasse A entscheidet, auf die Liste der Stücke setzen</translation>
        </message>
        <message>
            <source>Take all tests that pa&amp;y</source>
            <translation>&amp;Alle lohnenden Proben nehmen</translation>
        </message>
        <message>
            <source>Put all proposed pieces on the list of pieces</source>
            <translation>Alle vorgeschlagenen Stücke auf die Liste der Stücke setzen</translation>
        </message>
        <message>
            <source>Sav&amp;e all tests on one platform …</source>
            <translation>Alle Proben auf einer Plattfor&amp;m speichern …</translation>
        </message>
        <message>
            <source>All proposed pieces side by side in one 3MF</source>
            <translation>Alle vorgeschlagenen Stücke nebeneinander in einer 3MF</translation>
        </message>
        <message>
            <source>Resu&amp;lts</source>
            <translation>Er&amp;gebnisse</translation>
        </message>
        <message>
            <source>&amp;Write down a result …</source>
            <translation>Ergebnis &amp;aufschreiben …</translation>
        </message>
        <message>
            <source>What came out of each step of a printed test piece</source>
            <translation>Was bei jeder Stufe eines gedruckten Probestücks herauskam</translation>
        </message>
        <message>
            <source>&amp;Change the result …</source>
            <translation>Ergebnis än&amp;dern …</translation>
        </message>
        <message>
            <source>Change the chosen trial</source>
            <translation>Den gewählten Versuch ändern</translation>
        </message>
        <message>
            <source>Remove t&amp;he trial</source>
            <translation>Versuch ent&amp;fernen</translation>
        </message>
        <message>
            <source>Forget the chosen trial in job and shop</source>
            <translation>Den gewählten Versuch in Auftrag und Werkstatt vergessen</translation>
        </message>
        <message>
            <source>Bring the trial bac&amp;k</source>
            <translation>Versuch &amp;zurückholen</translation>
        </message>
        <message>
            <source>Take back what was last changed or removed of the shop's own trials</source>
            <translation>Zurücknehmen, was zuletzt an Versuchen der Werkstatt geändert oder entfernt wurde</translation>
        </message>
        <message>
            <source>&amp;Export all trials …</source>
            <translation>Alle &amp;Versuche ausgeben …</translation>
        </message>
        <message>
            <source>As a table (CSV) with a row for each step</source>
            <translation>Als Tabelle (CSV) mit einer Zeile je Stufe</translation>
        </message>
        <message>
            <source>&amp;View</source>
            <translation>&amp;Ansicht</translation>
        </message>
        <message>
            <source>How much each face shows</source>
            <translation>Wie sehr jede Fläche zu sehen ist</translation>
        </message>
        <message>
            <source>Inclination of undersides from horizontal</source>
            <translation>Neigung der Unterseiten gegen die Waagerechte</translation>
        </message>
        <message>
            <source>Where supports bear against the part and stand on it</source>
            <translation>Wo Stützen am Teil anliegen und darauf stehen</translation>
        </message>
        <message>
            <source>Width of the layer steps</source>
            <translation>Breite der Schichtstufen</translation>
        </message>
        <message>
            <source>What is wrong with the file, and where</source>
            <translation>Was an der Datei falsch ist, und wo</translation>
        </message>
        <message>
            <source>How far the mended surface lies from the part as received</source>
            <translation>Wie weit die ausgebesserte Oberfläche vom Teil wie erhalten entfernt liegt</translation>
        </message>
        <message>
            <source>The part as it comes out: layer lines, terraces, marks of supports</source>
            <translation>Das Teil, wie es herauskommt: Schichtlinien, Treppenstufen, Spuren der Stützen</translation>
        </message>
        <message>
            <source>Where this pose is better and where worse than the pinned one</source>
            <translation>Wo diese Lage besser und wo sie schlechter ist als die angeheftete</translation>
        </message>
        <message>
            <source>&amp;Supports</source>
            <translation>&amp;Stützen</translation>
        </message>
        <message>
            <source>Show or hide the support columns</source>
            <translation>Die Stützsäulen zeigen oder verbergen</translation>
        </message>
        <message>
            <source>&amp;Height strip</source>
            <translation>&amp;Höhenstreifen</translation>
        </message>
        <message>
            <source>Show or hide the chart of heights</source>
            <translation>Das Schaubild der Höhen zeigen oder verbergen</translation>
        </message>
        <message>
            <source>C&amp;olour of the print …</source>
            <translation>Farbe des Dr&amp;ucks …</translation>
        </message>
        <message>
            <source>In which colour the lens Printed look shows the material</source>
            <translation>In welcher Farbe die Ansicht Druckbild das Material zeigt</translation>
        </message>
        <message>
            <source>&amp;Machine's volumes</source>
            <translation>&amp;Maschinenräume</translation>
        </message>
        <message>
            <source>Show the build volume, what each nozzle reaches, and where the part sticks out</source>
            <translation>Den Bauraum zeigen, was jede Düse erreicht und wo das Teil herausragt</translation>
        </message>
        <message>
            <source>&amp;Camera</source>
            <translation>&amp;Kamera</translation>
        </message>
        <message>
            <source>&amp;Fit the part</source>
            <translation>&amp;Teil einpassen</translation>
        </message>
        <message>
            <source>See the whole part</source>
            <translation>Das ganze Teil sehen</translation>
        </message>
        <message>
            <source>From the front</source>
            <translation>Von vorn</translation>
        </message>
        <message>
            <source>Look from the front</source>
            <translation>Von vorn ansehen</translation>
        </message>
        <message>
            <source>From the back</source>
            <translation>Von hinten</translation>
        </message>
        <message>
            <source>Look from the back</source>
            <translation>Von hinten ansehen</translation>
        </message>
        <message>
            <source>From the left</source>
            <translation>Von links</translation>
        </message>
        <message>
            <source>Look from the left</source>
            <translation>Von links ansehen</translation>
        </message>
        <message>
            <source>From the right</source>
            <translation>Von rechts</translation>
        </message>
        <message>
            <source>Look from the right</source>
            <translation>Von rechts ansehen</translation>
        </message>
        <message>
            <source>From above</source>
            <translation>Von oben</translation>
        </message>
        <message>
            <source>Look from above</source>
            <translation>Von oben ansehen</translation>
        </message>
        <message>
            <source>From below</source>
            <translation>Von unten</translation>
        </message>
        <message>
            <source>Look from below</source>
            <translation>Von unten ansehen</translation>
        </message>
        <message>
            <source>&amp;Theme</source>
            <translation>&amp;Farben</translation>
        </message>
        <message>
            <source>As des&amp;ktop</source>
            <translation>Wie der Schreib&amp;tisch</translation>
        </message>
        <message>
            <source>Follow it</source>
            <translation>Ihm folgen</translation>
        </message>
        <message>
            <source>&amp;Light</source>
            <translation>&amp;Hell</translation>
        </message>
        <message>
            <source>Light colours</source>
            <translation>Helle Farben</translation>
        </message>
        <message>
            <source>&amp;Dark</source>
            <translation>&amp;Dunkel</translation>
        </message>
        <message>
            <source>Dark colours</source>
            <translation>Dunkle Farben</translation>
        </message>
        <message>
            <source>Lan&amp;guage</source>
            <translation>S&amp;prache</translation>
        </message>
        <message>
            <source>As the des&amp;ktop</source>
            <translation>Wie der Schreib&amp;tisch</translation>
        </message>
        <message>
            <source>Speak the language of the desktop</source>
            <translation>Die Sprache des Schreibtischs sprechen</translation>
        </message>
        <message>
            <source>&amp;English</source>
            <translation>&amp;English</translation>
        </message>
        <message>
            <source>Speak English</source>
            <translation>Englisch sprechen</translation>
        </message>
        <message>
            <source>&amp;Deutsch</source>
            <translation>&amp;Deutsch</translation>
        </message>
        <message>
            <source>Speak German</source>
            <translation>Deutsch sprechen</translation>
        </message>
        <message>
            <source>&amp;Presentation</source>
            <translation>&amp;Vorführung</translation>
        </message>
        <message>
            <source>The scene alone with large type; arrows show the kept poses, Escape ends it</source>
            <translation>Nur die Szene mit großer Schrift; Pfeile zeigen die gemerkten Lagen, Escape beendet sie</translation>
        </message>
        <message>
            <source>F&amp;ull screen</source>
            <translation>&amp;Ganzer Bildschirm</translation>
        </message>
        <message>
            <source>Use the whole screen</source>
            <translation>Den ganzen Bildschirm nutzen</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/adapting.py</name>
        <message>
            <source>The part is still being made ready; try again in a moment.</source>
            <translation>Das Teil wird noch vorbereitet; versuchen Sie es gleich noch einmal.</translation>
        </message>
        <message>
            <source>adaptive-layers</source>
            <translation>angepasste-schichten</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/aims_box.py</name>
        <message>
            <source>0: does not matter; 100: matters most. The order changes at once.</source>
            <translation>0: egal; 100: am wichtigsten. Die Reihenfolge ändert sich sofort.</translation>
        </message>
        <message>
            <source>The pair is chosen in the shop; its form has this weight (F4).</source>
            <translation>Das Paar wird in der Werkstatt gewählt; dieses Gewicht steht in seinem Formular (F4).</translation>
        </message>
        <message>
            <source>With the chosen pair it counts as {weight:.0f}.</source>
            <translation>Mit dem gewählten Paar zählt er als {weight:.0f}.</translation>
        </message>
        <message>
            <source>Put every slider where this aim has it.</source>
            <translation>Jeden Regler dorthin stellen, wo dieses Ziel ihn hat.</translation>
        </message>
        <message>
            <source>Must</source>
            <translation>Pflicht</translation>
        </message>
        <message>
            <source>Directions beyond this limit are cut out; the map hatches them.</source>
            <translation>Richtungen jenseits dieser Grenze fallen weg; die Karte schraffiert sie.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/band_tool.py</name>
        <message>
            <source>{height} mm above the platform: drag to where the band shall end</source>
            <translation>{height} mm über der Bauplattform: Ziehen Sie bis dorthin, wo das Band enden soll</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/beside_button.py</name>
        <message>
            <source>Test pieces: {beside} of {made} …</source>
            <translation>Probestücke: {beside} von {made} …</translation>
        </message>
        <message>
            <source>Test pieces: none yet</source>
            <translation>Probestücke: noch keine</translation>
        </message>
        <message>
            <source>Which of the job's test pieces stand on the platform beside the part; time, material and money of the job hold them.</source>
            <translation>Welche Probestücke des Auftrags auf der Bauplattform neben dem Teil stehen; in Zeit, Material und Kosten des Auftrags sind sie enthalten.</translation>
        </message>
        <message>
            <source>Make a test piece first, in the stage Try.</source>
            <translation>Machen Sie zuerst ein Probestück, in der Stufe Erproben.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/box_tool.py</name>
        <message>
            <source>Moved by {x}, {y}, {z} mm</source>
            <translation>Verschoben um {x}, {y}, {z} mm</translation>
        </message>
        <message>
            <source>Drag to move the cut in steps of 0.1 mm, with Ctrl 1 mm</source>
            <translation>Ziehen verschiebt den Schnitt in Schritten von 0,1 mm, mit Strg 1 mm</translation>
        </message>
        <message>
            <source>Drag to move this side in steps of 0.1 mm, with Ctrl 1 mm</source>
            <translation>Ziehen verschiebt diese Seite in Schritten von 0,1 mm, mit Strg 1 mm</translation>
        </message>
        <message>
            <source>{length} mm from side to side</source>
            <translation>{length} mm von Seite zu Seite</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/busy_bar.py</name>
        <message>
            <source>Progress</source>
            <translation>Fortschritt</translation>
        </message>
        <message>
            <source>Cancel</source>
            <translation>Abbrechen</translation>
        </message>
        <message>
            <source>Stop; nothing is changed (Esc)</source>
            <translation>Anhalten; es wird nichts geändert (Esc)</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/cad_box.py</name>
        <message>
            <source>Chord error</source>
            <translation>Sehnenfehler</translation>
        </message>
        <message>
            <source>How far a triangle may stand off the exact surface; a quarter of a layer at first.</source>
            <translation>Wie weit ein Dreieck von der exakten Fläche abstehen darf; anfangs eine Viertelschicht.</translation>
        </message>
        <message>
            <source>Sew within</source>
            <translation>Nähen bis</translation>
        </message>
        <message>
            <source>Loose surfaces whose edges lie this near are joined; 0 leaves them as they are.</source>
            <translation>Lose Flächen, deren Kanten so nahe liegen, werden verbunden; 0 lässt sie, wie sie sind.</translation>
        </message>
        <message>
            <source>Make the triangles anew</source>
            <translation>Dreiecke neu machen</translation>
        </message>
        <message>
            <source>Split the exact surfaces again with these two numbers; one undo step, marks stay.</source>
            <translation>Die exakten Flächen mit diesen beiden Zahlen neu teilen; ein Schritt zum Zurücknehmen, Markierungen bleiben.</translation>
        </message>
        <message>
            <source>Exact surfaces</source>
            <translation>Exakte Flächen</translation>
        </message>
        <message>
            <source>Sewing tolerance</source>
            <translation>Nähtoleranz</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/calibration_chart.py</name>
        <message>
            <source>estimated, {unit} (upright: real)</source>
            <translation>geschätzt, {unit} (senkrecht: wirklich)</translation>
        </message>
        <message>
            <source>Chart: {count} finished prints against their estimates</source>
            <translation>Diagramm: {count} fertige Drucke gegen ihre Schätzungen</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/caption_bar.py</name>
        <message>
            <source>Tilted {x} and {y}, spun {z}</source>
            <translation>Gekippt um {x} und {y}, gedreht um {z}</translation>
        </message>
        <message>
            <source>{number} of {kept}</source>
            <translation>{number} von {kept}</translation>
        </message>
        <message>
            <source>As in the file</source>
            <translation>Wie in der Datei</translation>
        </message>
        <message>
            <source>{name}, class {column}</source>
            <translation>{name}, Klasse {column}</translation>
        </message>
        <message>
            <source>Part, pose and numbers</source>
            <translation>Teil, Lage und Zahlen</translation>
        </message>
        <message>
            <source>{difference} to the pinned</source>
            <translation>{difference} zur angehefteten</translation>
        </message>
        <message>
            <source>Pose {place}</source>
            <translation>Lage {place}</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/choices.py</name>
        <message>
            <source>Brush</source>
            <translation>Pinsel</translation>
        </message>
        <message>
            <source>Up to a crease</source>
            <translation>Bis zur Kante</translation>
        </message>
        <message>
            <source>Patch</source>
            <translation>Flicken</translation>
        </message>
        <message>
            <source>Band of heights</source>
            <translation>Höhenband</translation>
        </message>
        <message>
            <source>Lasso</source>
            <translation>Lasso</translation>
        </message>
        <message>
            <source>Seen from here</source>
            <translation>Von hier</translation>
        </message>
        <message>
            <source>Seen in use</source>
            <translation>Im Gebrauch</translation>
        </message>
        <message>
            <source>Change marks</source>
            <translation>Ändern</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/company_dialog.py</name>
        <message>
            <source>What money is called on the sheet, such as EUR; empty: as the machine's rate is given in. Nothing is converted.</source>
            <translation>Wie das Geld auf dem Kundenblatt heißt, etwa EUR; leer: wie beim Stundensatz der Maschine. Umgerechnet wird nichts.</translation>
        </message>
        <message>
            <source>Stands at the head of the sheet and over its lines.</source>
            <translation>Steht oben auf dem Kundenblatt und über den Zeilen zum Unterschreiben.</translation>
        </message>
        <message>
            <source>Name of your company</source>
            <translation>Name Ihrer Firma</translation>
        </message>
        <message>
            <source>Currency on the sheet</source>
            <translation>Währung auf dem Kundenblatt</translation>
        </message>
        <message>
            <source>As the machine's rate</source>
            <translation>Wie der Satz der Maschine</translation>
        </message>
        <message>
            <source>Choose a logo …</source>
            <translation>Logo wählen …</translation>
        </message>
        <message>
            <source>A PNG or JPEG; it is made small for the sheet</source>
            <translation>Ein PNG oder JPEG; es wird für das Kundenblatt verkleinert</translation>
        </message>
        <message>
            <source>No logo</source>
            <translation>Kein Logo</translation>
        </message>
        <message>
            <source>Leave the logo out</source>
            <translation>Das Logo weglassen</translation>
        </message>
        <message>
            <source>Keep</source>
            <translation>Merken</translation>
        </message>
        <message>
            <source>Keep this for all sheets from now on</source>
            <translation>Das von nun an für alle Kundenblätter behalten</translation>
        </message>
        <message>
            <source>Leave it as it was</source>
            <translation>Alles lassen, wie es war</translation>
        </message>
        <message>
            <source>The logo</source>
            <translation>Das Logo</translation>
        </message>
        <message>
            <source>There is no logo.</source>
            <translation>Es gibt kein Logo.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/compare_box.py</name>
        <message>
            <source>Pose of the first pane, which the others are compared with</source>
            <translation>Lage des ersten Felds, mit der die anderen verglichen werden</translation>
        </message>
        <message>
            <source>Compare</source>
            <translation>Vergleichen</translation>
        </message>
        <message>
            <source>One more pose beside these</source>
            <translation>Noch eine Lage neben diesen</translation>
        </message>
        <message>
            <source>Leave out the last pose</source>
            <translation>Die letzte Lage weglassen</translation>
        </message>
        <message>
            <source>More poses</source>
            <translation>Mehr Lagen</translation>
        </message>
        <message>
            <source>Fewer poses</source>
            <translation>Weniger Lagen</translation>
        </message>
        <message>
            <source>End</source>
            <translation>Beenden</translation>
        </message>
        <message>
            <source>Pose of pane {place}</source>
            <translation>Lage des Felds {place}</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/compare_prices.py</name>
        <message>
            <source>Of all copies, on the chosen machine.</source>
            <translation>Aller Kopien, auf der gewählten Maschine.</translation>
        </message>
        <message>
            <source>Cost</source>
            <translation>Kosten</translation>
        </message>
        <message>
            <source>Material at its price, and hours of the machine.</source>
            <translation>Material zu seinem Preis und Stunden der Maschine.</translation>
        </message>
        <message>
            <source>Part, supports and what is purged.</source>
            <translation>Teil, Stützen und was ausgespült wird.</translation>
        </message>
        <message>
            <source>Tool changes</source>
            <translation>Werkzeugwechsel</translation>
        </message>
        <message>
            <source>From the real sequence of layers; the range is that of both orders of materials.</source>
            <translation>Aus der wirklichen Folge der Schichten; die Spanne ist die beider Reihenfolgen der Materialien.</translation>
        </message>
        <message>
            <source>{low} to {high}</source>
            <translation>{low} bis {high}</translation>
        </message>
        <message>
            <source>not so</source>
            <translation>so nicht</translation>
        </message>
        <message>
            <source>Fits</source>
            <translation>Passt</translation>
        </message>
        <message>
            <source>yes</source>
            <translation>ja</translation>
        </message>
        <message>
            <source>at {spin_deg:g}°</source>
            <translation>bei {spin_deg:g}°</translation>
        </message>
        <message>
            <source>no</source>
            <translation>nein</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/compare_rows.py</name>
        <message>
            <source>better</source>
            <translation>besser</translation>
        </message>
        <message>
            <source>worse</source>
            <translation>schlechter</translation>
        </message>
        <message>
            <source>alike</source>
            <translation>gleich</translation>
        </message>
        <message>
            <source>all</source>
            <translation>alle</translation>
        </message>
        <message>
            <source>class {column}</source>
            <translation>Klasse {column}</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/compare_table.py</name>
        <message>
            <source>, {difference} to the first</source>
            <translation>, {difference} zur ersten</translation>
        </message>
        <message>
            <source>Numbers of the poses side by side</source>
            <translation>Zahlen der Lagen nebeneinander</translation>
        </message>
        <message>
            <source>, standard error {error}</source>
            <translation>, Standardfehler {error}</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/compared_poses.py</name>
        <message>
            <source>Present pose</source>
            <translation>Jetzt</translation>
        </message>
        <message>
            <source>Kept pose</source>
            <translation>Gemerkte Lage</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/cut_box.py</name>
        <message>
            <source>Middle of the cut from the middle of the part, and its height over the platform; or drag the round handle in the scene.</source>
            <translation>Mitte des Schnitts, gerechnet von der Mitte des Teils, und ihre Höhe über der Plattform; oder in der Szene am runden Griff ziehen.</translation>
        </message>
        <message>
            <source>Size of the box; or drag the handles on its sides.</source>
            <translation>Größe des Kastens; oder an den Griffen seiner Seiten ziehen.</translation>
        </message>
        <message>
            <source>Height over the platform; or drag the handles in the scene.</source>
            <translation>Höhe über der Plattform; oder in der Szene an den Griffen ziehen.</translation>
        </message>
        <message>
            <source>Turn of the cut about the upright axis, anticlockwise seen from above.</source>
            <translation>Drehung des Schnitts um die Hochachse, von oben gesehen gegen den Uhrzeigersinn.</translation>
        </message>
        <message>
            <source>Lay each piece on its largest cut face. Otherwise it lies as in the whole, so that it shows the same terraces and supports.</source>
            <translation>Jedes Stück auf seine größte Schnittfläche legen. Sonst liegt es wie im Ganzen und zeigt dieselben Treppenstufen und Stützen.</translation>
        </message>
        <message>
            <source>Keep only the largest body of what lies in the box.</source>
            <translation>Von dem, was im Kasten liegt, nur den größten Körper behalten.</translation>
        </message>
        <message>
            <source>Middle</source>
            <translation>Mitte</translation>
        </message>
        <message>
            <source>Size</source>
            <translation>Größe</translation>
        </message>
        <message>
            <source>Turn of the cut</source>
            <translation>Drehung des Schnitts</translation>
        </message>
        <message>
            <source>Largest body only</source>
            <translation>Nur größter Körper</translation>
        </message>
        <message>
            <source>Lay on a cut face</source>
            <translation>Auf Schnittfläche legen</translation>
        </message>
        <message>
            <source>Around the worst patch of</source>
            <translation>Um die ärgste Stelle von</translation>
        </message>
        <message>
            <source>Width</source>
            <translation>Breite</translation>
        </message>
        <message>
            <source>Depth</source>
            <translation>Tiefe</translation>
        </message>
        <message>
            <source>Height</source>
            <translation>Höhe</translation>
        </message>
        <message>
            <source>From</source>
            <translation>Von</translation>
        </message>
        <message>
            <source>To</source>
            <translation>Bis</translation>
        </message>
        <message>
            <source>Turn</source>
            <translation>Drehen</translation>
        </message>
        <message>
            <source>Cut a small piece out of the part and print it first; nothing of the part changes.</source>
            <translation>Schneiden Sie ein kleines Stück aus dem Teil und drucken Sie es zuerst; am Teil ändert sich nichts.</translation>
        </message>
        <message>
            <source>Cutting …</source>
            <translation>Wird geschnitten …</translation>
        </message>
        <message>
            <source>Quarters</source>
            <translation>Viertel</translation>
        </message>
        <message>
            <source>Box</source>
            <translation>Kasten</translation>
        </message>
        <message>
            <source>Touch</source>
            <translation>Kontakt</translation>
        </message>
        <message>
            <source>Take it</source>
            <translation>Nehmen</translation>
        </message>
        <message>
            <source>Put away</source>
            <translation>Weglegen</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/cut_link.py</name>
        <message>
            <source>! the outline stops at {places}</source>
            <translation>! der Umriss bricht an {places} ab</translation>
        </message>
        <message>
            <source>place</source>
            <translation>Stelle</translation>
        </message>
        <message>
            <source>places</source>
            <translation>Stellen</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/cut_planner.py</name>
        <message>
            <source>Looking for the worst patch</source>
            <translation>Suche die schlimmste Stelle</translation>
        </message>
        <message>
            <source>The box holds the largest patch of {kind} on class A: {area} mm².</source>
            <translation>Der Kasten enthält die größte Stelle auf Klasse A, {kind}: {area} mm².</translation>
        </message>
        <message>
            <source>Take the pieces</source>
            <translation>Stücke übernehmen</translation>
        </message>
        <message>
            <source>touch</source>
            <translation>Kontakt</translation>
        </message>
        <message>
            <source>terraces</source>
            <translation>Treppenstufen</translation>
        </message>
        <message>
            <source>The list of pieces is full; take some off it first.</source>
            <translation>Die Liste der Stücke ist voll; nehmen Sie erst einige herunter.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/difference_link.py</name>
        <message>
            <source>Each pane against pane 1.</source>
            <translation>Jedes Feld gegen Feld 1.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/direction_map.py</name>
        <message>
            <source>Every build direction: hover to see its numbers, click to turn the part there, drag to walk. Arrow keys walk, with Shift in fine steps; Return turns the part there.</source>
            <translation>Jede Baurichtung: darüberfahren zeigt ihre Zahlen, ein Klick dreht das Teil dorthin, Ziehen wandert. Pfeiltasten wandern, mit Umschalt in feinen Schritten; die Eingabetaste dreht das Teil dorthin.</translation>
        </message>
        <message>
            <source>Direction map</source>
            <translation>Richtungskarte</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/direction_pane.py</name>
        <message>
            <source>Spin of the part: {how}</source>
            <translation>Drehung des Teils: {how}</translation>
        </message>
        <message>
            <source>Every direction</source>
            <translation>Jede Richtung</translation>
        </message>
        <message>
            <source>Progress of the search</source>
            <translation>Fortschritt der Suche</translation>
        </message>
        <message>
            <source>Search</source>
            <translation>Suchen</translation>
        </message>
        <message>
            <source>Stop</source>
            <translation>Anhalten</translation>
        </message>
        <message>
            <source>Stop searching (Esc)</source>
            <translation>Die Suche anhalten (Esc)</translation>
        </message>
        <message>
            <source>Close</source>
            <translation>Schließen</translation>
        </message>
        <message>
            <source>Close the direction map (Shift+D, Esc)</source>
            <translation>Die Richtungskarte schließen (Umschalt+D, Esc)</translation>
        </message>
        <message>
            <source>Globe</source>
            <translation>Globus</translation>
        </message>
        <message>
            <source>Results</source>
            <translation>Ergebnisse</translation>
        </message>
        <message>
            <source>What matters</source>
            <translation>Was zählt</translation>
        </message>
        <message>
            <source>Colour the map by</source>
            <translation>Die Karte einfärben nach</translation>
        </message>
        <message>
            <source>What the colours of the map show</source>
            <translation>Was die Farben der Karte zeigen</translation>
        </message>
        <message>
            <source>Spin when going to a direction</source>
            <translation>Drehung beim Wechsel der Richtung</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/error_dialog.py</name>
        <message>
            <source>Text of the last error</source>
            <translation>Text des letzten Fehlers</translation>
        </message>
        <message>
            <source>Copy</source>
            <translation>Kopieren</translation>
        </message>
        <message>
            <source>Put the text onto the clipboard</source>
            <translation>Den Text in die Zwischenablage legen</translation>
        </message>
        <message>
            <source>Show the folder</source>
            <translation>Ordner zeigen</translation>
        </message>
        <message>
            <source>Where log and text lie</source>
            <translation>Wo Protokoll und Text liegen</translation>
        </message>
        <message>
            <source>Throw away</source>
            <translation>Wegwerfen</translation>
        </message>
        <message>
            <source>Delete the text</source>
            <translation>Den Text löschen</translation>
        </message>
        <message>
            <source>Keep the text for later</source>
            <translation>Den Text für später behalten</translation>
        </message>
        <message>
            <source>This says where in the program something unexpected happened. It holds nothing of your parts: no geometry, no names of files, no figures. It stays on this computer unless you pass it on, for instance to whoever gave you Showside.</source>
            <translation>Hier steht, wo im Programm etwas Unerwartetes geschah. Von Ihren Teilen steht nichts darin: keine Geometrie, keine Dateinamen, keine Zahlen. Der Text bleibt auf diesem Rechner, wenn Sie ihn nicht weitergeben, zum Beispiel an den, von dem Sie Showside haben.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/fault_box.py</name>
        <message>
            <source>Click or press Return to see one place after the other.</source>
            <translation>Klicken Sie oder drücken Sie Eingabe, um eine Stelle nach der anderen zu sehen.</translation>
        </message>
        <message>
            <source>at {low:.1f} mm</source>
            <translation>bei {low:.1f} mm</translation>
        </message>
        <message>
            <source>from {low:.1f} to {high:.1f} mm</source>
            <translation>von {low:.1f} bis {high:.1f} mm</translation>
        </message>
        <message>
            <source>Show</source>
            <translation>Zeigen</translation>
        </message>
        <message>
            <source>Look at them on the part. {advice}</source>
            <translation>Am Teil ansehen. {advice}</translation>
        </message>
        <message>
            <source>Show {words}</source>
            <translation>{words} zeigen</translation>
        </message>
        <message>
            <source>Place {number} of {count}, at {height_mm:.1f} mm</source>
            <translation>Stelle {number} von {count}, bei {height_mm:.1f} mm</translation>
        </message>
        <message>
            <source>Done</source>
            <translation>Fertig</translation>
        </message>
        <message>
            <source>Next</source>
            <translation>Weiter</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/file_work.py</name>
        <message>
            <source>Writing {name}</source>
            <translation>{name} wird geschrieben</translation>
        </message>
        <message>
            <source>Making the demo part</source>
            <translation>Beispielteil wird gemacht</translation>
        </message>
        <message>
            <source>Reducing the part</source>
            <translation>Das Teil wird vereinfacht</translation>
        </message>
        <message>
            <source>Working out the layers</source>
            <translation>Schichten werden ausgerechnet</translation>
        </message>
        <message>
            <source>Opening {name}</source>
            <translation>{name} wird geöffnet</translation>
        </message>
        <message>
            <source>Making the triangles anew</source>
            <translation>Dreiecke werden neu gemacht</translation>
        </message>
        <message>
            <source>Carrying the marks over to {name}</source>
            <translation>Markierungen werden auf {name} übertragen</translation>
        </message>
        <message>
            <source>Saving {name}</source>
            <translation>{name} wird gespeichert</translation>
        </message>
        <message>
            <source>Open a newer version</source>
            <translation>Neuere Fassung öffnen</translation>
        </message>
        <message>
            <source>Reduce the part</source>
            <translation>Teil vereinfachen</translation>
        </message>
        <message>
            <source>The part cannot be reduced: it is not closed, or its surface would move by more than {within_mm:.2f} mm. It stays as it is; mend it first, or go on with it.</source>
            <translation>Das Teil lässt sich nicht vereinfachen: Es ist nicht geschlossen, oder seine Oberfläche würde sich um mehr als {within_mm:.2f} mm verschieben. Es bleibt, wie es ist; bessern Sie es zuerst aus, oder arbeiten Sie damit weiter.</translation>
        </message>
        <message>
            <source>The part was changed meanwhile, so the newer version was not put in its place; open it again.</source>
            <translation>Das Teil wurde inzwischen geändert, die neuere Fassung kam deshalb nicht an seine Stelle; öffnen Sie sie noch einmal.</translation>
        </message>
        <message>
            <source>The part was changed meanwhile, so it was not reduced; reduce it again.</source>
            <translation>Das Teil wurde inzwischen geändert und deshalb nicht vereinfacht; vereinfachen Sie es noch einmal.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/first_page.py</name>
        <message>
            <source>First steps</source>
            <translation>Erste Schritte</translation>
        </message>
        <message>
            <source>Open the demo</source>
            <translation>Demo öffnen</translation>
        </message>
        <message>
            <source>A grip for a garden trowel</source>
            <translation>Ein Griff für eine Pflanzkelle</translation>
        </message>
        <message>
            <source>Open a file …</source>
            <translation>Datei öffnen …</translation>
        </message>
        <message>
            <source>A part or a job of your own</source>
            <translation>Ein eigenes Teil oder ein eigener Auftrag</translation>
        </message>
        <message>
            <source>Settings …</source>
            <translation>Einstellungen …</translation>
        </message>
        <message>
            <source>Language, theme, size of type</source>
            <translation>Sprache, Farben, Schriftgröße</translation>
        </message>
        <message>
            <source>Help &gt; First page brings it back</source>
            <translation>Hilfe &gt; Erste Seite holt sie zurück</translation>
        </message>
        <message>
            <source>Lay a part so that the side that shows comes out of the print clean.</source>
            <translation>Ein Teil so legen, dass die sichtbare Seite sauber aus dem Druck kommt.</translation>
        </message>
        <message>
            <source>A job goes through five stages, at the left edge:</source>
            <translation>Ein Auftrag geht durch fünf Stufen, am linken Rand:</translation>
        </message>
        <message>
            <source>The demo is a soft grip for a garden trowel, with its faces marked: turn it and see the numbers change. F1 explains whatever you are at.</source>
            <translation>Die Demo ist ein weicher Griff für eine Gartenkelle mit markierten Flächen: Drehen Sie ihn und sehen Sie, wie sich die Zahlen ändern. F1 erklärt, woran Sie gerade sind.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/fold.py</name>
        <message>
            <source>open</source>
            <translation>offen</translation>
        </message>
        <message>
            <source>closed</source>
            <translation>geschlossen</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/height_chart.py</name>
        <message>
            <source>layer {layer:,} of {layer_count:,}</source>
            <translation>Schicht {layer:,} von {layer_count:,}</translation>
        </message>
        <message>
            <source>area</source>
            <translation>Fläche</translation>
        </message>
        <message>
            <source>perimeter</source>
            <translation>Umfang</translation>
        </message>
        <message>
            <source>{islands} here</source>
            <translation>{islands} hier</translation>
        </message>
        <message>
            <source>island starts</source>
            <translation>Insel beginnt</translation>
        </message>
        <message>
            <source>islands start</source>
            <translation>Inseln beginnen</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/height_drawing.py</name>
        <message>
            <source>{name} up to {highest} {unit}</source>
            <translation>{name} bis {highest} {unit}</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/height_strip.py</name>
        <message>
            <source>Whole part</source>
            <translation>Ganzes Teil</translation>
        </message>
        <message>
            <source>Drag, or turn the wheel, to cut the part open; Esc closes it.</source>
            <translation>Ziehen Sie oder drehen Sie das Mausrad, um das Teil aufzuschneiden; Esc schließt es.</translation>
        </message>
        <message>
            <source>Height strip</source>
            <translation>Höhenstreifen</translation>
        </message>
        <message>
            <source>Close the cut (Esc).</source>
            <translation>Schnitt schließen (Esc).</translation>
        </message>
        <message>
            <source>A chart of the part against height comes with a part.</source>
            <translation>Das Schaubild des Teils über der Höhe erscheint mit einem Teil.</translation>
        </message>
        <message>
            <source>The part against height, platform at the left. </source>
            <translation>Das Teil über der Höhe, die Bauplattform links. </translation>
        </message>
        <message>
            <source>Arrow keys cut it open layer by layer.</source>
            <translation>Pfeiltasten schneiden es Schicht für Schicht auf.</translation>
        </message>
        <message>
            <source>Cut open at {here}. {remark} Esc closes it.</source>
            <translation>Aufgeschnitten bei {here}. {remark} Esc schließt es.</translation>
        </message>
        <message>
            <source>Area of every layer, from the platform up</source>
            <translation>Fläche jeder Schicht, von der Bauplattform aufwärts</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/help_texts.py</name>
        <message>
            <source>Mouse and keys</source>
            <translation>Maus und Tasten</translation>
        </message>
        <message>
            <source>How it mends</source>
            <translation>Wie es ausbessert</translation>
        </message>
        <message>
            <source>How marking works</source>
            <translation>Wie das Markieren geht</translation>
        </message>
        <message>
            <source>How it measures</source>
            <translation>Wie es misst</translation>
        </message>
        <message>
            <source>How it searches directions</source>
            <translation>Wie es Richtungen sucht</translation>
        </message>
        <message>
            <source>How comparing works</source>
            <translation>Wie das Vergleichen geht</translation>
        </message>
        <message>
            <source>How the shop reckons</source>
            <translation>Wie die Werkstatt rechnet</translation>
        </message>
        <message>
            <source>How pieces are cut</source>
            <translation>Wie Stücke geschnitten werden</translation>
        </message>
        <message>
            <source>How trials teach</source>
            <translation>Wie Versuche lehren</translation>
        </message>
        <message>
            <source>Client sheet and pack</source>
            <translation>Kundenblatt und Paket</translation>
        </message>
        <message>
            <source>Settings, files and what goes wrong</source>
            <translation>Einstellungen, Dateien und was schiefgeht</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/help_window.py</name>
        <message>
            <source>Help</source>
            <translation>Hilfe</translation>
        </message>
        <message>
            <source>Search the help</source>
            <translation>In der Hilfe suchen</translation>
        </message>
        <message>
            <source>Shows the sections that have all these words</source>
            <translation>Zeigt die Abschnitte, die alle diese Wörter enthalten</translation>
        </message>
        <message>
            <source>Pages and sections</source>
            <translation>Seiten und Abschnitte</translation>
        </message>
        <message>
            <source>Choose one to read it</source>
            <translation>Wählen Sie, was Sie lesen möchten</translation>
        </message>
        <message>
            <source>All pages</source>
            <translation>Alle Seiten</translation>
        </message>
        <message>
            <source>Sections found: {found}</source>
            <translation>Abschnitte gefunden: {found}</translation>
        </message>
        <message>
            <source>Nothing found; try fewer or shorter words.</source>
            <translation>Nichts gefunden; versuchen Sie es mit weniger oder kürzeren Wörtern.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/job_keeper.py</name>
        <message>
            <source>A window holds one part: of the files dropped only {name} was opened. Drop the others one at a time.</source>
            <translation>Ein Fenster nimmt ein Teil auf: Von den Dateien, die Sie auf das Fenster gezogen haben, wurde nur {name} geöffnet. Ziehen Sie die anderen einzeln darauf.</translation>
        </message>
        <message>
            <source>Open &amp;recent</source>
            <translation>&amp;Zuletzt geöffnet</translation>
        </message>
        <message>
            <source>{name} is open.</source>
            <translation>{name} ist geöffnet.</translation>
        </message>
        <message>
            <source>Saved as {name}.</source>
            <translation>Gespeichert als {name}.</translation>
        </message>
        <message>
            <source>No part</source>
            <translation>Kein Teil</translation>
        </message>
        <message>
            <source>{name} (can only be read)</source>
            <translation>{name} (nur lesbar)</translation>
        </message>
        <message>
            <source>Written: {path}</source>
            <translation>Geschrieben: {path}</translation>
        </message>
        <message>
            <source>kept-poses</source>
            <translation>gemerkte-lagen</translation>
        </message>
        <message>
            <source>Nothing yet</source>
            <translation>Noch nichts</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/joint_fields.py</name>
        <message>
            <source>Flat faces</source>
            <translation>Ebene Flächen</translation>
        </message>
        <message>
            <source>Nothing but the two faces; held by glue alone.</source>
            <translation>Nichts als die beiden Flächen; nur der Kleber hält sie.</translation>
        </message>
        <message>
            <source>Pins</source>
            <translation>Stifte</translation>
        </message>
        <message>
            <source>Two round pins of different thickness on one face and holes in the other, so that the pieces go together in one way only.</source>
            <translation>Zwei runde Stifte verschiedener Dicke auf einer Fläche und Löcher in der anderen, sodass die Stücke nur auf eine Weise zusammengehen.</translation>
        </message>
        <message>
            <source>Dovetail</source>
            <translation>Schwalbenschwanz</translation>
        </message>
        <message>
            <source>A tail on one face slides into a slot of the other, which is open at one end only, where no class A is.</source>
            <translation>Ein Schwalbenschwanz auf einer Fläche gleitet in eine Nut der anderen, die nur an einem Ende offen ist, wo keine Klasse A ist.</translation>
        </message>
        <message>
            <source>Joint of the pieces</source>
            <translation>Verbindung der Stücke</translation>
        </message>
        <message>
            <source>How the pieces go together again.</source>
            <translation>Wie die Stücke wieder zusammengehen.</translation>
        </message>
        <message>
            <source>Width of the joint</source>
            <translation>Breite der Verbindung</translation>
        </message>
        <message>
            <source>Glue gap</source>
            <translation>Klebespalt</translation>
        </message>
        <message>
            <source>Diameter of the thicker pin, or width of a dovetail at its foot.</source>
            <translation>Durchmesser des dickeren Stifts, oder Breite eines Schwalbenschwanzes an seinem Fuß.</translation>
        </message>
        <message>
            <source>By which holes and slots are wider all round and deeper.</source>
            <translation>Um so viel sind Löcher und Nuten ringsum weiter und tiefer.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/kept_box.py</name>
        <message>
            <source>Click or Return: lay the part like this. F2 or double click: rename. Delete: remove.</source>
            <translation>Klick oder Eingabe: das Teil so legen. F2 oder Doppelklick: umbenennen. Entf: entfernen.</translation>
        </message>
        <message>
            <source>Note</source>
            <translation>Notiz</translation>
        </message>
        <message>
            <source>Note on the kept pose</source>
            <translation>Notiz zur gemerkten Lage</translation>
        </message>
        <message>
            <source>Kept poses</source>
            <translation>Gemerkte Lagen</translation>
        </message>
        <message>
            <source>Rename</source>
            <translation>Umbenennen</translation>
        </message>
        <message>
            <source>Remove</source>
            <translation>Entfernen</translation>
        </message>
        <message>
            <source>Go to “{name}”</source>
            <translation>Zu „{name}“ gehen</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/kept_keys.py</name>
        <message>
            <source>{keys} moves the pointer or works in fields; choose other keys.</source>
            <translation>{keys} bewegt den Zeiger oder wirkt in Feldern; wählen Sie andere Tasten.</translation>
        </message>
        <message>
            <source>{keys} already means “{name}”; choose other keys, or change those first.</source>
            <translation>{keys} bedeutet schon „{name}“; wählen Sie andere Tasten oder ändern Sie zuerst jene.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/keys_dialog.py</name>
        <message>
            <source>Keys and shortcuts</source>
            <translation>Tasten und Kürzel</translation>
        </message>
        <message>
            <source>Name, menu or keys</source>
            <translation>Name, Menü oder Tasten</translation>
        </message>
        <message>
            <source>Shows the actions that have all these words</source>
            <translation>Zeigt die Befehle, die alle diese Wörter enthalten</translation>
        </message>
        <message>
            <source>New keys</source>
            <translation>Neue Tasten</translation>
        </message>
        <message>
            <source>Click here and press the keys; up to two strokes after another</source>
            <translation>Klicken Sie hierher und drücken Sie die Tasten; bis zu zwei Anschläge nacheinander</translation>
        </message>
        <message>
            <source>Take these keys</source>
            <translation>Diese Tasten nehmen</translation>
        </message>
        <message>
            <source>Give them to the action</source>
            <translation>Gibt sie dem Befehl</translation>
        </message>
        <message>
            <source>Set back</source>
            <translation>Zurücksetzen</translation>
        </message>
        <message>
            <source>Give the action the keys it came with</source>
            <translation>Gibt dem Befehl die Tasten, mit denen er kam</translation>
        </message>
        <message>
            <source>Set all back</source>
            <translation>Alle zurücksetzen</translation>
        </message>
        <message>
            <source>Give every action the keys it came with</source>
            <translation>Gibt jedem Befehl die Tasten, mit denen er kam</translation>
        </message>
        <message>
            <source>Actions and their keys</source>
            <translation>Befehle und ihre Tasten</translation>
        </message>
        <message>
            <source>Changed keys are in bold</source>
            <translation>Geänderte Tasten stehen fett</translation>
        </message>
        <message>
            <source>New keys:</source>
            <translation>Neue Tasten:</translation>
        </message>
        <message>
            <source>Close this page</source>
            <translation>Diese Seite schließen</translation>
        </message>
        <message>
            <source>All actions have the keys they came with.</source>
            <translation>Alle Befehle haben die Tasten, mit denen sie kamen.</translation>
        </message>
        <message>
            <source>Action</source>
            <translation>Befehl</translation>
        </message>
        <message>
            <source>Menu</source>
            <translation>Menü</translation>
        </message>
        <message>
            <source>Keys</source>
            <translation>Tasten</translation>
        </message>
        <message>
            <source>“{name}” now has the keys {keys}.</source>
            <translation>„{name}“ hat jetzt die Tasten {keys}.</translation>
        </message>
        <message>
            <source>“{name}” has no keys now.</source>
            <translation>„{name}“ hat jetzt keine Tasten.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/language.py</name>
        <message>
            <source>From the next start on Showside speaks {language}.</source>
            <translation>Ab dem nächsten Start spricht Showside {language}.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/large_part.py</name>
        <message>
            <source>This part has {count:,} facets. It is drawn coarser than it is; its numbers are exact, but take longer. With about {fewer:,} facets all goes quicker, and no place of its surface moves by more than {within_mm:.2f} mm.</source>
            <translation>Dieses Teil hat {count:,} Facetten. Es wird gröber gezeichnet, als es ist; seine Zahlen sind genau, brauchen aber länger. Mit etwa {fewer:,} Facetten geht alles schneller, und keine Stelle der Oberfläche verschiebt sich um mehr als {within_mm:.2f} mm.</translation>
        </message>
        <message>
            <source>A very large part</source>
            <translation>Ein sehr großes Teil</translation>
        </message>
        <message>
            <source>Reduce it</source>
            <translation>Vereinfachen</translation>
        </message>
        <message>
            <source>One step, which undo takes back</source>
            <translation>Ein Schritt, den Sie rückgängig machen können</translation>
        </message>
        <message>
            <source>Leave it</source>
            <translation>So lassen</translation>
        </message>
        <message>
            <source>Go on with all facets</source>
            <translation>Mit allen Facetten weiterarbeiten</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/lasso_tool.py</name>
        <message>
            <source>right through the part</source>
            <translation>quer durch das Teil</translation>
        </message>
        <message>
            <source>that is seen from here</source>
            <translation>die von hier zu sehen ist</translation>
        </message>
        <message>
            <source>Drag a loop: it marks every face within it {reach}</source>
            <translation>Ziehen Sie eine Schleife: Sie markiert jede Fläche darin, {reach}</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/layers_box.py</name>
        <message>
            <source>wide terraces {area} mm²</source>
            <translation>breite Stufen {area} mm²</translation>
        </message>
        <message>
            <source>Even layers of {layer} mm: {layers}; {terraces}.</source>
            <translation>Gleiche Schichten von {layer} mm: {layers}; {terraces}.</translation>
        </message>
        <message>
            <source>Adaptive, {thin} to {thick} mm: {layers} ({change}); {terraces}.</source>
            <translation>Angepasst, {thin} bis {thick} mm: {layers} ({change}); {terraces}.</translation>
        </message>
        <message>
            <source>Always the thickest allowed, from below: {layers}.</source>
            <translation>Von unten immer die dickste erlaubte: {layers}.</translation>
        </message>
        <message>
            <source>Largest cusp on class A: {before} mm even, {after} mm adaptive.</source>
            <translation>Größte Stufe auf Klasse A: gleich {before} mm, angepasst {after} mm.</translation>
        </message>
        <message>
            <source>wide terraces on A {a} mm², on B {b} mm²</source>
            <translation>breite Stufen auf A {a} mm², auf B {b} mm²</translation>
        </message>
        <message>
            <source>Cusp limit</source>
            <translation>Stufengrenze</translation>
        </message>
        <message>
            <source>Thinnest layer</source>
            <translation>Dünnste Schicht</translation>
        </message>
        <message>
            <source>Thickest layer</source>
            <translation>Dickste Schicht</translation>
        </message>
        <message>
            <source>Over {height} mm of height even the thinnest layer leaves larger cusps.</source>
            <translation>Auf {height} mm Höhe lässt selbst die dünnste Schicht größere Stufen.</translation>
        </message>
        <message>
            <source>What if each layer were as thick as class A lets it be? For this pose.</source>
            <translation>Was wäre, wenn jede Schicht so dick wäre, wie Klasse A es zulässt? Für diese Lage.</translation>
        </message>
        <message>
            <source>How far steps may stand off class A.</source>
            <translation>Wie weit Stufen von Klasse A abstehen dürfen.</translation>
        </message>
        <message>
            <source>Thinnest</source>
            <translation>Dünnste</translation>
        </message>
        <message>
            <source>The thinnest layer the machine lays well.</source>
            <translation>Die dünnste Schicht, die die Maschine gut legt.</translation>
        </message>
        <message>
            <source>Thickest</source>
            <translation>Dickste</translation>
        </message>
        <message>
            <source>The thickest layer the nozzle can lay.</source>
            <translation>Die dickste Schicht, die die Düse legen kann.</translation>
        </message>
        <message>
            <source>Write as a table …</source>
            <translation>Als Tabelle schreiben …</translation>
        </message>
        <message>
            <source>Being worked out …</source>
            <translation>Wird ausgerechnet …</translation>
        </message>
        <message>
            <source>layer</source>
            <translation>Schicht</translation>
        </message>
        <message>
            <source>layers</source>
            <translation>Schichten</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/legend_link.py</name>
        <message>
            <source>Nothing is at fault.</source>
            <translation>Es ist nichts fehlerhaft.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/legend_strip.py</name>
        <message>
            <source>Legend, {title}: {explanation}</source>
            <translation>Legende, {title}: {explanation}</translation>
        </message>
        <message>
            <source>Scale from {low:g} to {high:g} {unit}, line at {mark_label}.</source>
            <translation>Skala von {low:g} bis {high:g} {unit}, Linie bei {mark_label}.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/lens_bar.py</name>
        <message>
            <source>Lens</source>
            <translation>Ansicht</translation>
        </message>
        <message>
            <source>What the colours of the part show.</source>
            <translation>Was die Farben des Teils zeigen.</translation>
        </message>
        <message>
            <source>Lens {title}</source>
            <translation>Ansicht {title}</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/lesson_box.py</name>
        <message>
            <source>Nothing is learnt yet for this machine and material: write down a result first.</source>
            <translation>Für diese Maschine und dieses Material ist noch nichts gelernt: Schreiben Sie zuerst ein Ergebnis auf.</translation>
        </message>
        <message>
            <source>What counts as having come out</source>
            <translation>Was als gelungen zählt</translation>
        </message>
        <message>
            <source>Which outcomes of a step count as having come out.</source>
            <translation>Welche Ergebnisse einer Stufe als gelungen zählen.</translation>
        </message>
        <message>
            <source>Back to {value}</source>
            <translation>Zurück auf {value}</translation>
        </message>
        <message>
            <source>Go by what stood there before anything was taken from trials.</source>
            <translation>Nach dem Wert gehen, der vor allen Versuchen dort stand.</translation>
        </message>
        <message>
            <source>Only clean counts</source>
            <translation>Nur sauber zählt</translation>
        </message>
        <message>
            <source>Acceptable counts too</source>
            <translation>Auch annehmbar zählt</translation>
        </message>
        <message>
            <source>Take {value}</source>
            <translation>{value} nehmen</translation>
        </message>
        <message>
            <source>Go by the likely value from now on; one step that undo takes back. The pose is measured again.</source>
            <translation>Von jetzt an nach dem wahrscheinlichen Wert gehen; ein Schritt, den Rückgängig zurücknimmt. Die Lage wird neu gemessen.</translation>
        </message>
        <message>
            <source>Safe {value}</source>
            <translation>Sicher {value}</translation>
        </message>
        <message>
            <source>Go by the value at which nine of ten prints come out.</source>
            <translation>Nach dem Wert gehen, bei dem neun von zehn Drucken gelingen.</translation>
        </message>
        <message>
            <source>{name}: {value} was taken from trials of “{of}” on “{machine}”.</source>
            <translation>{name}: {value} wurde aus Versuchen mit „{of}“ auf „{machine}“ übernommen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/machine_looks.py</name>
        <message>
            <source>Purged material</source>
            <translation>Spülmaterial</translation>
        </message>
        <message>
            <source>Build volume {size} mm</source>
            <translation>Bauraum {size} mm</translation>
        </message>
        <message>
            <source>Reach of “{nozzle}” {size} mm</source>
            <translation>Reichweite von „{nozzle}“ {size} mm</translation>
        </message>
        <message>
            <source>Keep free: {name}</source>
            <translation>Freihalten: {name}</translation>
        </message>
        <message>
            <source>Supports stick out of what nozzle “{nozzle}” reaches.</source>
            <translation>Stützen ragen aus dem heraus, was Düse „{nozzle}“ erreicht.</translation>
        </message>
        <message>
            <source>The part sticks out of what nozzle “{nozzle}” reaches.</source>
            <translation>Das Teil ragt aus dem heraus, was Düse „{nozzle}“ erreicht.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/main_window.py</name>
        <message>
            <source>Change the unit</source>
            <translation>Einheit ändern</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/manners.py</name>
        <message>
            <source>Something went wrong inside Showside, and the last action may be half done. Save the job under another name to be safe; Help &gt; Text of the last error says more.</source>
            <translation>In Showside ist etwas Unerwartetes geschehen, und der letzte Befehl ist vielleicht nur halb ausgeführt. Speichern Sie den Auftrag sicherheitshalber unter anderem Namen; Hilfe &gt; Text des letzten Fehlers sagt mehr.</translation>
        </message>
        <message>
            <source>The log lies in {folder}.</source>
            <translation>Das Protokoll liegt in {folder}.</translation>
        </message>
        <message>
            <source>No error is kept: nothing unexpected has happened.</source>
            <translation>Kein Fehler ist aufbewahrt: Es ist nichts Unerwartetes geschehen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/map_drawing.py</name>
        <message>
            <source>Up as in the file</source>
            <translation>Oben wie in der Datei</translation>
        </message>
        <message>
            <source>Upside down</source>
            <translation>Kopfüber</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/map_layers.py</name>
        <message>
            <source>Score</source>
            <translation>Wertung</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/map_legend.py</name>
        <message>
            <source>too large</source>
            <translation>zu groß</translation>
        </message>
        <message>
            <source>falls over</source>
            <translation>fällt um</translation>
        </message>
        <message>
            <source>touches A</source>
            <translation>berührt A</translation>
        </message>
        <message>
            <source>unreachable</source>
            <translation>unerreichbar</translation>
        </message>
        <message>
            <source>best</source>
            <translation>am besten</translation>
        </message>
        <message>
            <source>stands flat</source>
            <translation>steht flach</translation>
        </message>
        <message>
            <source>kept</source>
            <translation>gemerkt</translation>
        </message>
        <message>
            <source>now</source>
            <translation>jetzt</translation>
        </message>
        <message>
            <source>worst</source>
            <translation>schlechteste</translation>
        </message>
        <message>
            <source>best, pale</source>
            <translation>beste, hell</translation>
        </message>
        <message>
            <source>outline: A untouched</source>
            <translation>Umriss: A unberührt</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/mark_planner.py</name>
        <message>
            <source>{label}: working it out …</source>
            <translation>{label}: wird ermittelt …</translation>
        </message>
        <message>
            <source>{label}: nothing to change</source>
            <translation>{label}: nichts zu ändern</translation>
        </message>
        <message>
            <source>{label}: nothing would change</source>
            <translation>{label}: nichts würde sich ändern</translation>
        </message>
        <message>
            <source>face</source>
            <translation>Fläche</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/mark_tool.py</name>
        <message>
            <source>class A</source>
            <translation>Klasse A</translation>
        </message>
        <message>
            <source>class B</source>
            <translation>Klasse B</translation>
        </message>
        <message>
            <source>unmarked</source>
            <translation>unmarkiert</translation>
        </message>
        <message>
            <source>A click marks {count} as {class_names}</source>
            <translation>Ein Klick markiert {count} als {class_names}</translation>
        </message>
        <message>
            <source>Fill as {name}</source>
            <translation>Als {name} füllen</translation>
        </message>
        <message>
            <source>Erase marks</source>
            <translation>Markierungen radieren</translation>
        </message>
        <message>
            <source>Paint {name}</source>
            <translation>{name} malen</translation>
        </message>
        <message>
            <source>Paint</source>
            <translation>Malen</translation>
        </message>
        <message>
            <source>Looking at the surface …</source>
            <translation>Die Oberfläche wird betrachtet …</translation>
        </message>
        <message>
            <source>Brush radius {brush_mm} mm: drag to mark as {class_names}; [ and ] change the size</source>
            <translation>Pinselradius {brush_mm} mm: Ziehen Sie, um als {class_names} zu markieren; [ und ] ändern die Größe</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/mark_ways.py</name>
        <message>
            <source>{way} as {class_names}</source>
            <translation>{way} als {class_names}</translation>
        </message>
        <message>
            <source>{way}: unmark</source>
            <translation>{way}: Markierung nehmen</translation>
        </message>
        <message>
            <source>Grow what is {name}</source>
            <translation>Weiten: {name}</translation>
        </message>
        <message>
            <source>Shrink what is {name}</source>
            <translation>Engen: {name}</translation>
        </message>
        <message>
            <source>Smooth the borders</source>
            <translation>Ränder glätten</translation>
        </message>
        <message>
            <source>Mirror the marks</source>
            <translation>Markierungen spiegeln</translation>
        </message>
        <message>
            <source>Exchange A and B</source>
            <translation>A und B tauschen</translation>
        </message>
        <message>
            <source>Band</source>
            <translation>Band</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/marking_surface.py</name>
        <message>
            <source>Looking at the surface</source>
            <translation>Die Oberfläche wird betrachtet</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/mend_box.py</name>
        <message>
            <source>Nothing is changed before you say so; every step can be undone.</source>
            <translation>Nichts wird geändert, bevor Sie es sagen; jeder Schritt lässt sich zurücknehmen.</translation>
        </message>
        <message>
            <source>There is nothing that mending would better.</source>
            <translation>Es gibt nichts, was Ausbessern verbessern würde.</translation>
        </message>
        <message>
            <source>All steps are taken; the check above says how the part is now.</source>
            <translation>Alle Schritte sind gegangen; die Prüfung oben sagt, wie das Teil jetzt ist.</translation>
        </message>
        <message>
            <source>Seams up to</source>
            <translation>Nähte bis</translation>
        </message>
        <message>
            <source>Wall</source>
            <translation>Wand</translation>
        </message>
        <message>
            <source>Resolution</source>
            <translation>Auflösung</translation>
        </message>
        <message>
            <source>Faces {faces}, volume {volume}, area {area}, {moves}. Leaves {left}.</source>
            <translation>Flächen {faces}, Volumen {volume}, Oberfläche {area}, {moves}. Es bleibt: {left}.</translation>
        </message>
        <message>
            <source>nothing moves</source>
            <translation>nichts bewegt sich</translation>
        </message>
        <message>
            <source>moves by up to {moved} mm</source>
            <translation>bewegt sich um bis zu {moved} mm</translation>
        </message>
        <message>
            <source>a closed surface without such faults</source>
            <translation>eine geschlossene Oberfläche ohne solche Fehler</translation>
        </message>
        <message>
            <source>unchanged</source>
            <translation>unverändert</translation>
        </message>
        <message>
            <source>Look for ways to mend</source>
            <translation>Ausbesserung suchen</translation>
        </message>
        <message>
            <source>Choose steps for this part and work out what each would change; takes none.</source>
            <translation>Schritte für dieses Teil wählen und ermitteln, was jeder ändern würde; geht keinen.</translation>
        </message>
        <message>
            <source>Mend what is safe</source>
            <translation>Sicheres ausbessern</translation>
        </message>
        <message>
            <source>Take the harmless steps that come next in one go: they move nothing that would print.</source>
            <translation>Die nächsten harmlosen Schritte in einem Zug gehen: Sie bewegen nichts, was gedruckt würde.</translation>
        </message>
        <message>
            <source>Back as received</source>
            <translation>Zurück wie erhalten</translation>
        </message>
        <message>
            <source>Lay the part as it was read in place of the mended one (Ctrl+Alt+M); its marks are carried over.</source>
            <translation>Legt das Teil, wie es gelesen wurde, an die Stelle des ausgebesserten (Strg+Alt+M); Markierungen werden übertragen.</translation>
        </message>
        <message>
            <source>Back to the part as received</source>
            <translation>Zurück zum Teil wie erhalten</translation>
        </message>
        <message>
            <source>New skin</source>
            <translation>Neue Haut</translation>
        </message>
        <message>
            <source>Lay a new skin around all that is enclosed: finer than this, shape is lost. The lens Deviation shows afterwards how far it lies from the part as received.</source>
            <translation>Eine neue Haut um alles Umschlossene legen: Was feiner ist als dies, geht an Form verloren. Die Ansicht Abweichung zeigt danach, wie weit sie vom Teil wie erhalten entfernt liegt.</translation>
        </message>
        <message>
            <source>Look at a new skin</source>
            <translation>Neue Haut ansehen</translation>
        </message>
        <message>
            <source>Work the new skin out, and offer it as a step; takes nothing yet.</source>
            <translation>Die neue Haut ermitteln und als Schritt anbieten; geht noch keinen.</translation>
        </message>
        <message>
            <source>Mend what is safe ({safe_ahead})</source>
            <translation>Sicheres ausbessern ({safe_ahead})</translation>
        </message>
        <message>
            <source>Take</source>
            <translation>Ausführen</translation>
        </message>
        <message>
            <source>Take step {number}: {words}</source>
            <translation>Schritt {number} gehen: {words}</translation>
        </message>
        <message>
            <source>open edge</source>
            <translation>offene Kante</translation>
        </message>
        <message>
            <source>open edges</source>
            <translation>offene Kanten</translation>
        </message>
        <message>
            <source>edge of more than two faces</source>
            <translation>Kante von mehr als zwei Flächen</translation>
        </message>
        <message>
            <source>edges of more than two faces</source>
            <translation>Kanten von mehr als zwei Flächen</translation>
        </message>
        <message>
            <source>doubled face</source>
            <translation>doppelte Fläche</translation>
        </message>
        <message>
            <source>doubled faces</source>
            <translation>doppelte Flächen</translation>
        </message>
        <message>
            <source>inverted shell</source>
            <translation>gewendete Schale</translation>
        </message>
        <message>
            <source>inverted shells</source>
            <translation>gewendete Schalen</translation>
        </message>
        <message>
            <source>face that crosses another</source>
            <translation>Fläche, die eine andere kreuzt</translation>
        </message>
        <message>
            <source>faces that cross others</source>
            <translation>Flächen, die andere kreuzen</translation>
        </message>
        <message>
            <source>face that touches another body</source>
            <translation>Fläche, die einen anderen Körper berührt</translation>
        </message>
        <message>
            <source>faces that touch other bodies</source>
            <translation>Flächen, die andere Körper berühren</translation>
        </message>
        <message>
            <source>Mend</source>
            <translation>Ausbessern</translation>
        </message>
        <message>
            <source>If nothing else helps</source>
            <translation>Wenn sonst nichts hilft</translation>
        </message>
        <message>
            <source>Resolution of the new skin</source>
            <translation>Auflösung der neuen Haut</translation>
        </message>
        <message>
            <source>Take this step; undo brings the part back.</source>
            <translation>Diesen Schritt gehen; Rückgängig bringt das Teil zurück.</translation>
        </message>
        <message>
            <source>The steps are taken in their order, as each builds on the one before.</source>
            <translation>Die Schritte werden der Reihe nach gegangen, weil jeder auf dem vorigen aufbaut.</translation>
        </message>
        <message>
            <source>Another length; what the step changes is worked out anew.</source>
            <translation>Eine andere Länge; was der Schritt ändert, wird neu ermittelt.</translation>
        </message>
        <message>
            <source>! It changes the shape: look at it afterwards.</source>
            <translation>! Dies ändert die Form: Sehen Sie sie danach an.</translation>
        </message>
        <message>
            <source>In order: {count}.</source>
            <translation>Der Reihe nach: {count}.</translation>
        </message>
        <message>
            <source>step</source>
            <translation>Schritt</translation>
        </message>
        <message>
            <source>steps</source>
            <translation>Schritte</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/mend_work.py</name>
        <message>
            <source>Carrying the marks over</source>
            <translation>Markierungen werden übertragen</translation>
        </message>
        <message>
            <source>Looking at the step again</source>
            <translation>Der Schritt wird neu betrachtet</translation>
        </message>
        <message>
            <source>Cutting the marks into the mended part</source>
            <translation>Markierungen werden in das ausgebesserte Teil geschnitten</translation>
        </message>
        <message>
            <source>Looking for ways to mend</source>
            <translation>Wege zum Ausbessern werden gesucht</translation>
        </message>
        <message>
            <source>Laying a new skin</source>
            <translation>Eine neue Haut wird gelegt</translation>
        </message>
        <message>
            <source>Mend ({name})</source>
            <translation>Ausbessern ({name})</translation>
        </message>
        <message>
            <source>Going back to the part as received</source>
            <translation>Zurück zum Teil wie erhalten</translation>
        </message>
        <message>
            <source>With this length nothing would be left of the part.</source>
            <translation>Mit dieser Länge bliebe nichts vom Teil übrig.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/mouse_words.py</name>
        <message>
            <source>Left button</source>
            <translation>Linke Taste</translation>
        </message>
        <message>
            <source>works the tool of the stage; beside the part it turns the view</source>
            <translation>bedient das Werkzeug der Stufe; neben dem Teil dreht sie die Ansicht</translation>
        </message>
        <message>
            <source>Right button</source>
            <translation>Rechte Taste</translation>
        </message>
        <message>
            <source>turns the view</source>
            <translation>dreht die Ansicht</translation>
        </message>
        <message>
            <source>Middle button</source>
            <translation>Mittlere Taste</translation>
        </message>
        <message>
            <source>shifts the view</source>
            <translation>verschiebt die Ansicht</translation>
        </message>
        <message>
            <source>Wheel</source>
            <translation>Rad</translation>
        </message>
        <message>
            <source>comes closer or goes farther, towards the pointer</source>
            <translation>geht näher heran oder weiter weg, zum Zeiger hin</translation>
        </message>
        <message>
            <source>[ and ]</source>
            <translation>[ und ]</translation>
        </message>
        <message>
            <source>smaller and larger brush</source>
            <translation>kleinerer und größerer Pinsel</translation>
        </message>
        <message>
            <source>Ctrl while turning</source>
            <translation>Strg beim Drehen</translation>
        </message>
        <message>
            <source>15° steps instead of 1°</source>
            <translation>Schritte von 15° statt 1°</translation>
        </message>
        <message>
            <source>Esc</source>
            <translation>Esc</translation>
        </message>
        <message>
            <source>takes back the drag under way, closes the cut, or stops a long job</source>
            <translation>nimmt den laufenden Zug zurück, schließt den Schnitt oder hält eine lange Arbeit an</translation>
        </message>
        <message>
            <source>Return in the list of faults</source>
            <translation>Eingabe in der Fehlerliste</translation>
        </message>
        <message>
            <source>the next place of the fault; up and down change the fault</source>
            <translation>die nächste Stelle des Fehlers; auf und ab wechseln den Fehler</translation>
        </message>
        <message>
            <source>Arrows</source>
            <translation>Pfeiltasten</translation>
        </message>
        <message>
            <source>move the pointer in the scene, with Shift by one pixel; with Ctrl they turn the view</source>
            <translation>bewegen den Zeiger in der Szene, mit Umschalt um ein Pixel; mit Strg drehen sie die Ansicht</translation>
        </message>
        <message>
            <source>Space, Return</source>
            <translation>Leertaste, Eingabe</translation>
        </message>
        <message>
            <source>hold the left button down; click</source>
            <translation>hält die linke Taste gedrückt; klickt</translation>
        </message>
        <message>
            <source>+ and −</source>
            <translation>+ und −</translation>
        </message>
        <message>
            <source>come closer, go farther</source>
            <translation>näher heran, weiter weg</translation>
        </message>
        <message>
            <source>1 to 8</source>
            <translation>1 bis 8</translation>
        </message>
        <message>
            <source>lenses</source>
            <translation>Ansichten</translation>
        </message>
        <message>
            <source>poses side by side; F5: on a call; F6: a picture; F7: a turntable</source>
            <translation>Lagen nebeneinander; F5: Vorführung; F6: ein Bild; F7: ein Drehbild</translation>
        </message>
        <message>
            <source>the height strip; drag in it, or turn the wheel, to cut the part open</source>
            <translation>der Höhenstreifen; Ziehen oder das Mausrad schneidet das Teil auf</translation>
        </message>
        <message>
            <source>Ctrl+1 to Ctrl+5</source>
            <translation>Strg+1 bis Strg+5</translation>
        </message>
        <message>
            <source>stages</source>
            <translation>Stufen</translation>
        </message>
        <message>
            <source>Ctrl+Shift+A</source>
            <translation>Strg+Umschalt+A</translation>
        </message>
        <message>
            <source>find any action by name</source>
            <translation>jeden Befehl nach Namen finden</translation>
        </message>
        <message>
            <source>help on what has the focus</source>
            <translation>Hilfe zu dem, was den Fokus hat</translation>
        </message>
        <message>
            <source>Ctrl+K</source>
            <translation>Strg+K</translation>
        </message>
        <message>
            <source>all shortcuts, to look up and to change</source>
            <translation>alle Kürzel, zum Nachsehen und Ändern</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/notice_bar.py</name>
        <message>
            <source>Notice</source>
            <translation>Hinweis</translation>
        </message>
        <message>
            <source>Dismiss</source>
            <translation>Schließen</translation>
        </message>
        <message>
            <source>Hide this notice</source>
            <translation>Diesen Hinweis verbergen</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/number_rows.py</name>
        <message>
            <source>Underside of the part that supports bear against; it comes out rough.</source>
            <translation>Unterseite des Teils, an der Stützen anliegen; sie wird rau.</translation>
        </message>
        <message>
            <source>Landing on the part</source>
            <translation>Stand auf dem Teil</translation>
        </message>
        <message>
            <source>Part surface on which supports stand; each leaves a mark when it is taken off.</source>
            <translation>Oberfläche des Teils, auf der Stützen stehen; jede hinterlässt beim Entfernen eine Spur.</translation>
        </message>
        <message>
            <source>Surface a support stands closer to than the clearance, so that it marks too.</source>
            <translation>Oberfläche, an der eine Stütze näher vorbeiführt als der Abstand, sodass auch sie Spuren bekommt.</translation>
        </message>
        <message>
            <source>Touch over short gaps</source>
            <translation>Kontakt über kurzen Spalten</translation>
        </message>
        <message>
            <source>Touch over gaps of less than half a layer, which hardly any support fits into.</source>
            <translation>Stützkontakt über Spalten von weniger als einer halben Schicht, in die kaum eine Stütze passt.</translation>
        </message>
        <message>
            <source>Bridged</source>
            <translation>Überbrückt</translation>
        </message>
        <message>
            <source>Undersides that span from wall to wall within the bridge limit and need no support.</source>
            <translation>Unterseiten, die innerhalb der Brückengrenze von Wand zu Wand reichen und keine Stütze brauchen.</translation>
        </message>
        <message>
            <source>Undersides flatter than the support limit, measured from horizontal.</source>
            <translation>Unterseiten flacher als der Stützwinkel, gegen die Waagerechte gemessen.</translation>
        </message>
        <message>
            <source>Wide terraces</source>
            <translation>Breite Treppenstufen</translation>
        </message>
        <message>
            <source>Surface whose layer steps are wider than one road, or than what trials say shows.</source>
            <translation>Oberfläche, deren Schichtstufen breiter sind als eine Bahn oder als das, was man nach Versuchen sieht.</translation>
        </message>
        <message>
            <source>Terrace width, mean</source>
            <translation>Stufenbreite, Mittel</translation>
        </message>
        <message>
            <source>How far one layer step runs: layer height divided by the tangent of the inclination.</source>
            <translation>Wie weit eine Schichtstufe reicht: Schichthöhe geteilt durch den Tangens der Neigung.</translation>
        </message>
        <message>
            <source>Cusp height, mean</source>
            <translation>Stufenhöhe, Mittel</translation>
        </message>
        <message>
            <source>How far the layer steps stand off the true surface.</source>
            <translation>Wie weit die Schichtstufen von der wahren Oberfläche abstehen.</translation>
        </message>
        <message>
            <source>Ra of ideal stairs, mean</source>
            <translation>Ra idealer Stufen, Mittel</translation>
        </message>
        <message>
            <source>Arithmetic roughness of a sharp staircase, t·cos α / 4, over surface that steps.</source>
            <translation>Mittenrauwert einer scharfen Treppe, t·cos α / 4, über gestufter Oberfläche.</translation>
        </message>
        <message>
            <source>Ra estimated, mean</source>
            <translation>Ra geschätzt, Mittel</translation>
        </message>
        <message>
            <source>Estimate by the model of Pandey, Reddy and Dhande 2003, fitted to printed samples; rough.</source>
            <translation>Schätzung nach dem Modell von Pandey, Reddy und Dhande 2003, an gedruckten Proben angepasst; grob.</translation>
        </message>
        <message>
            <source>Flats off the layer grid</source>
            <translation>Ebenen neben dem Schichtraster</translation>
        </message>
        <message>
            <source>Level faces whose height is no whole number of layers; they come out at the nearest one.</source>
            <translation>Ebene Flächen, deren Höhe keine ganze Zahl von Schichten ist; sie entstehen auf der nächsten.</translation>
        </message>
        <message>
            <source>On the platform</source>
            <translation>Auf der Bauplattform</translation>
        </message>
        <message>
            <source>Faces that lie flat on the build platform; they take on its finish.</source>
            <translation>Flächen, die flach auf der Bauplattform liegen; sie nehmen deren Glätte an.</translation>
        </message>
        <message>
            <source>Support volume</source>
            <translation>Stützvolumen</translation>
        </message>
        <message>
            <source>Room between overhangs and what lies below them, taken as straight upright columns.</source>
            <translation>Raum zwischen Überhängen und dem, was darunter liegt, als gerade aufrechte Säulen gerechnet.</translation>
        </message>
        <message>
            <source>Support on the platform</source>
            <translation>Stützen auf der Bauplattform</translation>
        </message>
        <message>
            <source>Platform area on which supports stand.</source>
            <translation>Fläche der Bauplattform, auf der Stützen stehen.</translation>
        </message>
        <message>
            <source>Places where a layer starts in mid-air, however steep the surface is there.</source>
            <translation>Stellen, an denen eine Schicht in der Luft beginnt, wie steil die Oberfläche dort auch ist.</translation>
        </message>
        <message>
            <source>Support under islands</source>
            <translation>Stützen unter Inseln</translation>
        </message>
        <message>
            <source>What stands under islands; under level ones it is part of the support volume, too.</source>
            <translation>Was unter Inseln steht; unter ebenen gehört es auch zum Stützvolumen.</translation>
        </message>
        <message>
            <source>Unreachable support</source>
            <translation>Unerreichbare Stützen</translation>
        </message>
        <message>
            <source>Support that no straight way out of the part leads to; it cannot be broken out.</source>
            <translation>Stützen, zu denen kein gerader Weg aus dem Teil führt; sie lassen sich nicht herausbrechen.</translation>
        </message>
        <message>
            <source>Sealed support</source>
            <translation>Eingeschlossene Stützen</translation>
        </message>
        <message>
            <source>Support in a closed hollow: it stays inside for good, whatever it is made of.</source>
            <translation>Stützen in einem geschlossenen Hohlraum: Sie bleiben für immer darin, woraus sie auch sind.</translation>
        </message>
        <message>
            <source>Must dissolve</source>
            <translation>Muss sich auflösen</translation>
        </message>
        <message>
            <source>Unreachable support that is not sealed: only a soluble material comes out of there.</source>
            <translation>Unerreichbare Stützen, die nicht eingeschlossen sind: Nur lösliches Material kommt von dort heraus.</translation>
        </message>
        <message>
            <source>Height of the part above the platform.</source>
            <translation>Höhe des Teils über der Bauplattform.</translation>
        </message>
        <message>
            <source>Number of layers at the chosen layer height.</source>
            <translation>Zahl der Schichten bei der gewählten Schichthöhe.</translation>
        </message>
        <message>
            <source>First layer</source>
            <translation>Erste Schicht</translation>
        </message>
        <message>
            <source>Section of the part at half the first layer: what holds it to the platform.</source>
            <translation>Querschnitt des Teils in halber Höhe der ersten Schicht: was es auf der Bauplattform hält.</translation>
        </message>
        <message>
            <source>Tip angle</source>
            <translation>Kippwinkel</translation>
        </message>
        <message>
            <source>How far the part alone could be tilted before it falls over; below 0 it falls by itself.</source>
            <translation>Wie weit sich das Teil allein kippen ließe, bevor es umfällt; unter 0 fällt es von selbst.</translation>
        </message>
        <message>
            <source>Tip angle with supports</source>
            <translation>Kippwinkel mit Stützen</translation>
        </message>
        <message>
            <source>The same for part and supports together, supports at a fifth of the part's density.</source>
            <translation>Dasselbe für Teil und Stützen zusammen, Stützen mit einem Fünftel der Dichte des Teils.</translation>
        </message>
        <message>
            <source>Tip angle, least</source>
            <translation>Kippwinkel, kleinster</translation>
        </message>
        <message>
            <source>The smallest tip angle of what is printed so far, supports included.</source>
            <translation>Der kleinste Kippwinkel des bisher Gedruckten, mit Stützen.</translation>
        </message>
        <message>
            <source>Least at a height of</source>
            <translation>Kleinster bei Höhe</translation>
        </message>
        <message>
            <source>Height printed when the tip angle is smallest.</source>
            <translation>Gedruckte Höhe, bei der der Kippwinkel am kleinsten ist.</translation>
        </message>
        <message>
            <source>total</source>
            <translation>gesamt</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/offer_rows.py</name>
        <message>
            <source>Likely; the range from low to high stands beside it.</source>
            <translation>Wahrscheinlich; der Bereich von niedrig bis hoch steht im Hinweis.</translation>
        </message>
        <message>
            <source>Material, g</source>
            <translation>Material, g</translation>
        </message>
        <message>
            <source>Everything that is fed, in all materials.</source>
            <translation>Alles, was zugeführt wird, in allen Materialien.</translation>
        </message>
        <message>
            <source>of it purged, g</source>
            <translation>davon gespült, g</translation>
        </message>
        <message>
            <source>What is pushed out at changes of material.</source>
            <translation>Was beim Wechsel des Materials ausgestoßen wird.</translation>
        </message>
        <message>
            <source>of it supports, g</source>
            <translation>davon Stützen, g</translation>
        </message>
        <message>
            <source>What is taken off again.</source>
            <translation>Was wieder abgenommen wird.</translation>
        </message>
        <message>
            <source>From the real sequence of layers.</source>
            <translation>Aus der wirklichen Folge der Schichten.</translation>
        </message>
        <message>
            <source>Whether part and supports find room on the machine.</source>
            <translation>Ob Teil und Stützen auf der Maschine Platz finden.</translation>
        </message>
        <message>
            <source>The ranges do not overlap: the difference is sure.</source>
            <translation>Die Bereiche überschneiden sich nicht: Der Unterschied ist sicher.</translation>
        </message>
        <message>
            <source>The ranges overlap: which is quicker is not sure.</source>
            <translation>Die Bereiche überschneiden sich: Was schneller ist, ist nicht sicher.</translation>
        </message>
        <message>
            <source>cannot be printed so</source>
            <translation>so nicht druckbar</translation>
        </message>
        <message>
            <source>See the table of machines.</source>
            <translation>Siehe die Tabelle der Maschinen.</translation>
        </message>
        <message>
            <source>{low} to {high} h</source>
            <translation>{low} bis {high} h</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/offers_dialog.py</name>
        <message>
            <source>Print on the machine, or with the pair, of the column</source>
            <translation>Auf der Maschine oder mit der Paarung der Spalte drucken</translation>
        </message>
        <message>
            <source>Compare machines</source>
            <translation>Maschinen vergleichen</translation>
        </message>
        <message>
            <source>The same job on every machine</source>
            <translation>Derselbe Auftrag auf jeder Maschine</translation>
        </message>
        <message>
            <source>The same job with every pair</source>
            <translation>Derselbe Auftrag mit jeder Paarung</translation>
        </message>
        <message>
            <source>What each machine takes more or less than the chosen one.</source>
            <translation>Was jede Maschine mehr oder weniger braucht als die gewählte.</translation>
        </message>
        <message>
            <source>Choose this one</source>
            <translation>Diese wählen</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/pane_grip.py</name>
        <message>
            <source>Height of the direction map</source>
            <translation>Höhe der Richtungskarte</translation>
        </message>
        <message>
            <source>Drag, or press the arrow keys up and down, to make room.</source>
            <translation>Ziehen oder Pfeiltasten auf und ab, um Platz zu schaffen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/panels/check_panel.py</name>
        <message>
            <source>! The check did not finish</source>
            <translation>! Die Prüfung wurde nicht fertig</translation>
        </message>
        <message>
            <source>Now: {size}, read as {unit}.</source>
            <translation>Jetzt: {size}, gelesen als {unit}.</translation>
        </message>
        <message>
            <source>Keep mm</source>
            <translation>mm behalten</translation>
        </message>
        <message>
            <source>The numbers are in {unit}.</source>
            <translation>Die Zahlen sind in {unit}.</translation>
        </message>
        <message>
            <source>The numbers are in {unit}</source>
            <translation>Die Zahlen sind in {unit}</translation>
        </message>
        <message>
            <source>Open a mesh, or drop one on the window.</source>
            <translation>Öffnen Sie ein Netz oder ziehen Sie eines auf das Fenster.</translation>
        </message>
        <message>
            <source>The numbers are in {suggested_unit}</source>
            <translation>Die Zahlen sind in {suggested_unit}</translation>
        </message>
        <message>
            <source>Scale the part so that the numbers of the file mean this unit.</source>
            <translation>Das Teil so umrechnen, dass die Zahlen der Datei diese Einheit meinen.</translation>
        </message>
        <message>
            <source>No file is open</source>
            <translation>Keine Datei ist geöffnet</translation>
        </message>
        <message>
            <source>shell</source>
            <translation>Schale</translation>
        </message>
        <message>
            <source>shells</source>
            <translation>Schalen</translation>
        </message>
        <message>
            <source>cavity</source>
            <translation>Hohlraum</translation>
        </message>
        <message>
            <source>cavities</source>
            <translation>Hohlräume</translation>
        </message>
        <message>
            <source>Not checked yet</source>
            <translation>Noch nicht geprüft</translation>
        </message>
        <message>
            <source>Checking …</source>
            <translation>Wird geprüft …</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/panels/hand_over_panel.py</name>
        <message>
            <source>Hot nozzle, platform and fresh parts burn. Printing gives off fumes and fine particles: ventilate, and follow the supplier's safety data sheet and local rules. Not for load-bearing, protective, medical, food or child use without a qualified assessment.</source>
            <translation>Düse, Bauplattform und frische Teile sind heiß. Beim Drucken entstehen Dämpfe und feine Teilchen: Lüften Sie; beachten Sie Sicherheitsdatenblatt und örtliche Vorschriften. Ohne fachkundige Beurteilung nicht für tragende, schützende oder medizinische Teile, Lebensmittel oder Kinder.</translation>
        </message>
        <message>
            <source>Written: the same triangles, turned as shown, lowest point at z = 0, in mm. A 3MF also keeps the classes as triangle sets.</source>
            <translation>Geschrieben: dieselben Dreiecke, gedreht wie gezeigt, tiefster Punkt bei z = 0, in mm. Ein 3MF behält auch die Klassen als Dreiecksmengen.</translation>
        </message>
        <message>
            <source>On: the triangles of the file, each with the class that covers most of it. Off: where marks are finer than the triangles, the pieces these were cut in, on the same surface (Ctrl+Alt+T).</source>
            <translation>Ein: die Dreiecke der Datei, jedes mit der Klasse, die das meiste davon bedeckt. Aus: wo Markierungen feiner als die Dreiecke sind, die Stücke, in die sie geschnitten wurden, auf derselben Oberfläche (Strg+Alt+T).</translation>
        </message>
        <message>
            <source>Build direction {up} of the part, spin {spin_deg:.1f}°.</source>
            <translation>Baurichtung {up} des Teils, Drehung {spin_deg:.1f}°.</translation>
        </message>
        <message>
            <source>The file's own triangles</source>
            <translation>Eigene Dreiecke der Datei</translation>
        </message>
        <message>
            <source>Write the file's own triangles</source>
            <translation>Die eigenen Dreiecke der Datei schreiben</translation>
        </message>
        <message>
            <source>{x}, {y}, {z}</source>
            <translation>{x}; {y}; {z}</translation>
        </message>
        <message>
            <source>Export the posed part</source>
            <translation>Gedrehtes Teil exportieren</translation>
        </message>
        <message>
            <source>Adaptive layers …</source>
            <translation>Angepasste Schichten …</translation>
        </message>
        <message>
            <source>Keep the job</source>
            <translation>Auftrag aufbewahren</translation>
        </message>
        <message>
            <source>A job is a 3MF that any reader opens as the posed part.</source>
            <translation>Ein Auftrag ist ein 3MF, das jedes Leseprogramm als gedrehtes Teil öffnet.</translation>
        </message>
        <message>
            <source> The marks are cut in {finer:,} pieces; {count:,} triangles are written.</source>
            <translation> Die Markierungen sind in {finer:,} Stücke geschnitten; {count:,} Dreiecke werden geschrieben.</translation>
        </message>
        <message>
            <source> The file has {count:,} triangles; {finer:,} pieces are written.</source>
            <translation> Die Datei hat {count:,} Dreiecke; {finer:,} Stücke werden geschrieben.</translation>
        </message>
        <message>
            <source>✓ Written in this pose</source>
            <translation>✓ In dieser Lage geschrieben</translation>
        </message>
        <message>
            <source>! Turned since it was written</source>
            <translation>! Seit dem Schreiben gedreht</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/panels/mark_panel.py</name>
        <message>
            <source>Drag over the part. The ring shows what a touch reaches; it never goes through a wall.</source>
            <translation>Ziehen Sie über das Teil. Der Ring zeigt, was eine Berührung erreicht; er geht nie durch eine Wand.</translation>
        </message>
        <message>
            <source>Click a surface: it fills up to edges sharper than the angle. What a click would mark is outlined.</source>
            <translation>Klicken Sie auf eine Fläche: Gefüllt wird bis zu Kanten, die schärfer als der Winkel sind. Was ein Klick markieren würde, ist umrandet.</translation>
        </message>
        <message>
            <source>Drag over the part from one height to another, or type both.</source>
            <translation>Ziehen Sie über das Teil von einer Höhe zur anderen oder geben Sie beide ein.</translation>
        </message>
        <message>
            <source>Drag a loop round what shall be marked; it closes by itself.</source>
            <translation>Ziehen Sie eine Schleife um das, was markiert werden soll; sie schließt sich von selbst.</translation>
        </message>
        <message>
            <source>Turn the view until it shows what the client sees, then mark it. What a press would mark is outlined.</source>
            <translation>Drehen Sie die Ansicht, bis sie zeigt, was der Kunde sieht, und markieren Sie es dann. Was ein Klick markieren würde, ist umrandet.</translation>
        </message>
        <message>
            <source>Marks what can be seen from any of the viewpoints on a circle round the part.</source>
            <translation>Markiert, was von einem der Blickpunkte auf einem Kreis um das Teil zu sehen ist.</translation>
        </message>
        <message>
            <source>Grow and shrink change the class chosen above. What a press would change is outlined.</source>
            <translation>Weiten und Engen ändern die oben gewählte Klasse. Was ein Klick ändern würde, ist umrandet.</translation>
        </message>
        <message>
            <source>Click a smooth region: the whole of it is marked; of a STEP or IGES part, one face of the CAD model. What a click would mark is outlined.</source>
            <translation>Klicken Sie auf einen glatten Bereich: Er wird ganz markiert; bei einem STEP- oder IGES-Teil eine Fläche des CAD-Modells. Was ein Klick markieren würde, ist umrandet.</translation>
        </message>
        <message>
            <source>Extent</source>
            <translation>Reichweite</translation>
        </message>
        <message>
            <source>Brush radius</source>
            <translation>Pinselradius</translation>
        </message>
        <message>
            <source>Brush radius slider</source>
            <translation>Schieber für den Pinselradius</translation>
        </message>
        <message>
            <source>Brush radius; [ and ] change it too</source>
            <translation>Pinselradius; [ und ] ändern ihn auch</translation>
        </message>
        <message>
            <source>Crease angle</source>
            <translation>Kantenwinkel</translation>
        </message>
        <message>
            <source>How far one use of the tool reaches.</source>
            <translation>Wie weit ein Einsatz des Werkzeugs reicht.</translation>
        </message>
        <message>
            <source>Radius</source>
            <translation>Radius</translation>
        </message>
        <message>
            <source>Radius of the brush on the surface; [ and ].</source>
            <translation>Radius des Pinsels auf der Oberfläche; [ und ].</translation>
        </message>
        <message>
            <source>Filling stops at edges where neighbouring faces meet at more than this angle.</source>
            <translation>Das Füllen endet an Kanten, an denen sich Nachbarflächen in mehr als diesem Winkel treffen.</translation>
        </message>
        <message>
            <source>Mark as</source>
            <translation>Markieren als</translation>
        </message>
        <message>
            <source>Area by class</source>
            <translation>Fläche je Klasse</translation>
        </message>
        <message>
            <source>Erase</source>
            <translation>Radieren</translation>
        </message>
        <message>
            <source>A, always in view</source>
            <translation>A, im Blick</translation>
        </message>
        <message>
            <source>B, seen in use</source>
            <translation>B, im Gebrauch</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/panels/numbers_panel.py</name>
        <message>
            <source>Class A: faces always in view.</source>
            <translation>Klasse A: Flächen, die immer im Blick sind.</translation>
        </message>
        <message>
            <source>Class B: faces seen in use.</source>
            <translation>Klasse B: Flächen, die im Gebrauch zu sehen sind.</translation>
        </message>
        <message>
            <source>Unmarked: hidden faces.</source>
            <translation>Unmarkiert: verdeckte Flächen.</translation>
        </message>
        <message>
            <source>All faces together.</source>
            <translation>Alle Flächen zusammen.</translation>
        </message>
        <message>
            <source>, against the pinned pose {difference}</source>
            <translation>, gegen die angeheftete Lage {difference}</translation>
        </message>
        <message>
            <source>{name}: none</source>
            <translation>{name}: keine</translation>
        </message>
        <message>
            <source>More numbers</source>
            <translation>Weitere Zahlen</translation>
        </message>
        <message>
            <source>Surface, foot and steadiness in detail; opens with room.</source>
            <translation>Oberfläche, Fuß und Stand im Einzelnen; öffnet sich, wo Platz ist.</translation>
        </message>
        <message>
            <source>While the part turns the numbers come from a coarse grid; at rest they are exact or carry their standard error after ±.</source>
            <translation>Während sich das Teil dreht, kommen die Zahlen aus einem groben Raster; in Ruhe sind sie genau oder tragen ihren Standardfehler hinter ±.</translation>
        </message>
        <message>
            <source>Numbers</source>
            <translation>Zahlen</translation>
        </message>
        <message>
            <source>Measuring the part …</source>
            <translation>Das Teil wird gemessen …</translation>
        </message>
        <message>
            <source>Open a part to see its numbers.</source>
            <translation>Öffnen Sie ein Teil, um seine Zahlen zu sehen.</translation>
        </message>
        <message>
            <source>measuring …</source>
            <translation>misst …</translation>
        </message>
        <message>
            <source>≈ coarse …</source>
            <translation>≈ grob …</translation>
        </message>
        <message>
            <source>✓ at rest</source>
            <translation>✓ in Ruhe</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/panels/try_panel.py</name>
        <message>
            <source>Measuring …</source>
            <translation>Wird gemessen …</translation>
        </message>
        <message>
            <source>Nothing is open: the numbers answer every question asked here.</source>
            <translation>Nichts ist offen: Die Zahlen beantworten jede Frage, die hier gestellt wird.</translation>
        </message>
        <message>
            <source>Still open: {questions}</source>
            <translation>Noch offen: {questions}</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/panels/turn_panel.py</name>
        <message>
            <source>The numbers show the difference to the pinned pose.</source>
            <translation>Die Zahlen zeigen den Unterschied zur angehefteten Lage.</translation>
        </message>
        <message>
            <source>Layer</source>
            <translation>Schicht</translation>
        </message>
        <message>
            <source>Layer height</source>
            <translation>Schichthöhe</translation>
        </message>
        <message>
            <source>height of one layer.</source>
            <translation>Höhe einer Schicht.</translation>
        </message>
        <message>
            <source>Limit</source>
            <translation>Grenze</translation>
        </message>
        <message>
            <source>smallest inclination, from horizontal, that holds itself up.</source>
            <translation>kleinste Neigung gegen die Waagerechte, die sich selbst trägt.</translation>
        </message>
        <message>
            <source>Road</source>
            <translation>Bahn</translation>
        </message>
        <message>
            <source>Road width</source>
            <translation>Bahnbreite</translation>
        </message>
        <message>
            <source>width of one extruded road.</source>
            <translation>Breite einer extrudierten Bahn.</translation>
        </message>
        <message>
            <source>Bridge</source>
            <translation>Brücke</translation>
        </message>
        <message>
            <source>longest span from wall to wall that needs no support; 0 for none.</source>
            <translation>längste Spanne von Wand zu Wand, die keine Stütze braucht; 0 für keine.</translation>
        </message>
        <message>
            <source>Clearance</source>
            <translation>Abstand</translation>
        </message>
        <message>
            <source>a support closer to the surface than this marks it (graze).</source>
            <translation>eine Stütze näher an der Oberfläche als dies hinterlässt Spuren (Streifstelle).</translation>
        </message>
        <message>
            <source>width from which terraces count as wide; 0 for the road width.</source>
            <translation>Breite, ab der Treppenstufen als breit zählen; 0 für die Bahnbreite.</translation>
        </message>
        <message>
            <source>Pin a pose to see by how much every other pose differs from it.</source>
            <translation>Heften Sie eine Lage an, um zu sehen, um wie viel jede andere von ihr abweicht.</translation>
        </message>
        <message>
            <source>This is the pinned pose.</source>
            <translation>Dies ist die angeheftete Lage.</translation>
        </message>
        <message>
            <source>Process</source>
            <translation>Prozess</translation>
        </message>
        <message>
            <source>Layer height, support limit and what else numbers depend on.</source>
            <translation>Schichthöhe, Stützwinkel und wovon die Zahlen sonst abhängen.</translation>
        </message>
        <message>
            <source>Tilt of the part about its own X, before the spin.</source>
            <translation>Kippung des Teils um seine eigene X-Achse, vor der Drehung.</translation>
        </message>
        <message>
            <source>Tilt of the part about its own Y, before the spin.</source>
            <translation>Kippung des Teils um seine eigene Y-Achse, vor der Drehung.</translation>
        </message>
        <message>
            <source>Turn about the upright axis, anticlockwise seen from above.</source>
            <translation>Drehung um die Hochachse, von oben gesehen gegen den Uhrzeigersinn.</translation>
        </message>
        <message>
            <source>Tilt about X</source>
            <translation>Kippung um X</translation>
        </message>
        <message>
            <source>Tilt about Y</source>
            <translation>Kippung um Y</translation>
        </message>
        <message>
            <source>Spin about Z</source>
            <translation>Drehung um Z</translation>
        </message>
        <message>
            <source>Rings</source>
            <translation>Ringe</translation>
        </message>
        <message>
            <source>Stand on face</source>
            <translation>Hinstellen</translation>
        </message>
        <message>
            <source>Tilt X</source>
            <translation>Kippen X</translation>
        </message>
        <message>
            <source>Tilt Y</source>
            <translation>Kippen Y</translation>
        </message>
        <message>
            <source>Spin Z</source>
            <translation>Drehen Z</translation>
        </message>
        <message>
            <source>Quarter turns</source>
            <translation>Vierteldrehungen</translation>
        </message>
        <message>
            <source>As in file</source>
            <translation>Wie Datei</translation>
        </message>
        <message>
            <source>Search all</source>
            <translation>Absuchen</translation>
        </message>
        <message>
            <source>Side by side</source>
            <translation>Gegenüber</translation>
        </message>
        <message>
            <source>Pin</source>
            <translation>Heften</translation>
        </message>
        <message>
            <source>Unpin</source>
            <translation>Lösen</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/part_view.py</name>
        <message>
            <source>The part on the build platform</source>
            <translation>Das Teil auf der Bauplattform</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/picked_results.py</name>
        <message>
            <source>Result {place}</source>
            <translation>Ergebnis {place}</translation>
        </message>
        <message>
            <source>Tick two to four results first, with their boxes or Space.</source>
            <translation>Haken Sie zuerst zwei bis vier Ergebnisse an, mit ihren Kästchen oder der Leertaste.</translation>
        </message>
        <message>
            <source>The part lies like this already: tick another result, too.</source>
            <translation>So liegt das Teil schon: Haken Sie noch ein Ergebnis an.</translation>
        </message>
        <message>
            <source>Four poses fit side by side: take some of the {count} ticks away.</source>
            <translation>Vier Lagen passen nebeneinander: Nehmen Sie einige der {count} Haken weg.</translation>
        </message>
        <message>
            <source>Keep results</source>
            <translation>Ergebnisse merken</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/picture_keeper.py</name>
        <message>
            <source>{doing}, {fraction:.0%}. Escape stops it.</source>
            <translation>{doing}, {fraction:.0%}. Escape hält es an.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/picture_work.py</name>
        <message>
            <source>Drawing {name}</source>
            <translation>{name} wird gezeichnet</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/piece_box.py</name>
        <message>
            <source>Choose a piece to see it beside the part. F2: rename. Delete: take it off the list.</source>
            <translation>Wählen Sie ein Stück, um es neben dem Teil zu sehen. F2: umbenennen. Entf: von der Liste nehmen.</translation>
        </message>
        <message>
            <source>None yet: take a cut-out, or add a specimen.</source>
            <translation>Noch keine: Übernehmen Sie einen Ausschnitt, oder fügen Sie einen Probekörper hinzu.</translation>
        </message>
        <message>
            <source>Name of the piece</source>
            <translation>Name des Stücks</translation>
        </message>
        <message>
            <source>Name of the piece; its file is named after it.</source>
            <translation>Name des Stücks; danach heißt auch seine Datei.</translation>
        </message>
        <message>
            <source>Rename the piece</source>
            <translation>Stück umbenennen</translation>
        </message>
        <message>
            <source>Supports touch {area} mm² of class A.</source>
            <translation>Stützen berühren {area} mm² von Klasse A.</translation>
        </message>
        <message>
            <source>Pieces of the job</source>
            <translation>Stücke des Auftrags</translation>
        </message>
        <message>
            <source>Remove the piece</source>
            <translation>Stück entfernen</translation>
        </message>
        <message>
            <source>All 3MF …</source>
            <translation>Alle 3MF …</translation>
        </message>
        <message>
            <source>All STL …</source>
            <translation>Alle STL …</translation>
        </message>
        <message>
            <source>Open as part</source>
            <translation>Als Teil öffnen</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/piece_desk.py</name>
        <message>
            <source>Cut out a piece</source>
            <translation>Stück herausschneiden</translation>
        </message>
        <message>
            <source>Quarters, slabs, a box, or the worst patch.</source>
            <translation>Viertel, Scheiben, ein Kasten oder die schlimmste Stelle.</translation>
        </message>
        <message>
            <source>Split for real</source>
            <translation>Endgültig teilen</translation>
        </message>
        <message>
            <source>Two halves that are joined again, for a part that is too large, or comes out cleaner in two.</source>
            <translation>Zwei Hälften, die wieder verbunden werden, für ein Teil, das zu groß ist oder in zwei Hälften sauberer wird.</translation>
        </message>
        <message>
            <source>Specimens</source>
            <translation>Probekörper</translation>
        </message>
        <message>
            <source>Standard prints that each answer one question.</source>
            <translation>Fertige Probekörper, die je eine Frage beantworten.</translation>
        </message>
        <message>
            <source>What is printed by itself, and what it takes.</source>
            <translation>Was für sich gedruckt wird, und was es braucht.</translation>
        </message>
        <message>
            <source>job-pieces</source>
            <translation>teilstuecke</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/piece_words.py</name>
        <message>
            <source>{time} · {mass} g · {cost} {currency}</source>
            <translation>{time} · {mass} g · {cost} {currency}</translation>
        </message>
        <message>
            <source>{low} to {high}, {cheap} to {dear} {currency}; each piece printed by itself.</source>
            <translation>{low} bis {high}, {cheap} bis {dear} {currency}; jedes Stück für sich gedruckt.</translation>
        </message>
        <message>
            <source>piece</source>
            <translation>Stück</translation>
        </message>
        <message>
            <source>pieces</source>
            <translation>Stücke</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/prints_dialog.py</name>
        <message>
            <source>Day</source>
            <translation>Tag</translation>
        </message>
        <message>
            <source>Job</source>
            <translation>Auftrag</translation>
        </message>
        <message>
            <source>Machine</source>
            <translation>Maschine</translation>
        </message>
        <message>
            <source>Pair</source>
            <translation>Paarung</translation>
        </message>
        <message>
            <source>Estimated</source>
            <translation>Geschätzt</translation>
        </message>
        <message>
            <source>Real</source>
            <translation>Wirklich</translation>
        </message>
        <message>
            <source>Estimated, g</source>
            <translation>Geschätzt, g</translation>
        </message>
        <message>
            <source>Real, g</source>
            <translation>Wirklich, g</translation>
        </message>
        <message>
            <source>A print of this size takes {likely:.2f} times the estimate, {low:.2f} to {high:.2f} in nine of ten; told by {count} prints.</source>
            <translation>Ein Druck dieser Größe braucht das {likely:.2f}-Fache der Schätzung, {low:.2f} bis {high:.2f} in neun von zehn Fällen; aus {count} Drucken.</translation>
        </message>
        <message>
            <source>No finished print of this machine yet: the range is that of the assumptions.</source>
            <translation>Noch kein fertiger Druck dieser Maschine: Der Bereich ist der der Annahmen.</translation>
        </message>
        <message>
            <source>Finished prints</source>
            <translation>Fertige Drucke</translation>
        </message>
        <message>
            <source>What was estimated, before finished prints corrected it.</source>
            <translation>Was geschätzt wurde, bevor fertige Drucke es berichtigten.</translation>
        </message>
        <message>
            <source>Real hours</source>
            <translation>Wirkliche Stunden</translation>
        </message>
        <message>
            <source>Of the whole print.</source>
            <translation>Des ganzen Drucks.</translation>
        </message>
        <message>
            <source>and minutes</source>
            <translation>und Minuten</translation>
        </message>
        <message>
            <source>Beyond the whole hours.</source>
            <translation>Über die ganzen Stunden hinaus.</translation>
        </message>
        <message>
            <source>Real mass</source>
            <translation>Wirkliche Masse</translation>
        </message>
        <message>
            <source>Of everything fed: part, supports, purge. 0 where it was not weighed.</source>
            <translation>Von allem Zugeführten: Teil, Stützen, Spülmaterial. 0, wo nicht gewogen wurde.</translation>
        </message>
        <message>
            <source>Note it</source>
            <translation>Eintragen</translation>
        </message>
        <message>
            <source>Add it to the list</source>
            <translation>In die Liste aufnehmen</translation>
        </message>
        <message>
            <source>What the chart shows</source>
            <translation>Was das Diagramm zeigt</translation>
        </message>
        <message>
            <source>Time of this machine</source>
            <translation>Zeit dieser Maschine</translation>
        </message>
        <message>
            <source>Mass of this machine</source>
            <translation>Masse dieser Maschine</translation>
        </message>
        <message>
            <source>By regression on the logarithms, from the prints of it alone.</source>
            <translation>Durch Regression der Logarithmen, nur aus ihren eigenen Drucken.</translation>
        </message>
        <message>
            <source>Take the chosen print off the list</source>
            <translation>Den gewählten Druck aus der Liste nehmen</translation>
        </message>
        <message>
            <source>Bring back</source>
            <translation>Zurückholen</translation>
        </message>
        <message>
            <source>Undo the removal</source>
            <translation>Das Entfernen rückgängig machen</translation>
        </message>
        <message>
            <source>Note a finished print</source>
            <translation>Einen fertigen Druck eintragen</translation>
        </message>
        <message>
            <source>Nothing is estimated now: open the part of the print.</source>
            <translation>Jetzt ist nichts geschätzt: Öffnen Sie das Teil des Drucks.</translation>
        </message>
        <message>
            <source>On “{machine}” in {pair}, {copies} at once: {time} and {grams} g, before correction.</source>
            <translation>Auf „{machine}“ in {pair}, {copies} auf einmal: {time} und {grams} g, vor der Berichtigung.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/prompts.py</name>
        <message>
            <source>Binary STL (*.stl)</source>
            <translation>Binäres STL (*.stl)</translation>
        </message>
        <message>
            <source>PDF to be printed and signed (*.pdf)</source>
            <translation>PDF zum Drucken und Unterschreiben (*.pdf)</translation>
        </message>
        <message>
            <source>One page with the part to be turned (*.html)</source>
            <translation>Eine Seite mit dem Teil zum Drehen (*.html)</translation>
        </message>
        <message>
            <source>Zip (*.zip)</source>
            <translation>Zip (*.zip)</translation>
        </message>
        <message>
            <source>Folder (*)</source>
            <translation>Ordner (*)</translation>
        </message>
        <message>
            <source>Animated GIF (*.gif)</source>
            <translation>Bewegtes GIF (*.gif)</translation>
        </message>
        <message>
            <source>Animated WebP (*.webp)</source>
            <translation>Bewegtes WebP (*.webp)</translation>
        </message>
        <message>
            <source>Parts and jobs ({patterns})</source>
            <translation>Teile und Aufträge ({patterns})</translation>
        </message>
        <message>
            <source>Table, comma-separated (*.csv)</source>
            <translation>Tabelle, mit Kommas getrennt (*.csv)</translation>
        </message>
        <message>
            <source>Pictures ({patterns})</source>
            <translation>Bilder ({patterns})</translation>
        </message>
        <message>
            <source>Where to make the folder {name}</source>
            <translation>Wo der Ordner {name} angelegt werden soll</translation>
        </message>
        <message>
            <source>Colour of the print</source>
            <translation>Farbe des Drucks</translation>
        </message>
        <message>
            <source>Open a mesh or a job</source>
            <translation>Netz oder Auftrag öffnen</translation>
        </message>
        <message>
            <source>Save the job</source>
            <translation>Auftrag speichern</translation>
        </message>
        <message>
            <source>Job (*.3mf)</source>
            <translation>Auftrag (*.3mf)</translation>
        </message>
        <message>
            <source>Write a table</source>
            <translation>Tabelle schreiben</translation>
        </message>
        <message>
            <source>Choose a photo</source>
            <translation>Foto wählen</translation>
        </message>
        <message>
            <source>Save a picture</source>
            <translation>Bild speichern</translation>
        </message>
        <message>
            <source>Save a turntable</source>
            <translation>Drehbild speichern</translation>
        </message>
        <message>
            <source>Save the client sheet</source>
            <translation>Kundenblatt speichern</translation>
        </message>
        <message>
            <source>Pack the job</source>
            <translation>Auftrag packen</translation>
        </message>
        <message>
            <source>Choose a logo</source>
            <translation>Logo wählen</translation>
        </message>
        <message>
            <source>Unsaved changes</source>
            <translation>Ungespeicherte Änderungen</translation>
        </message>
        <message>
            <source>The job “{part_name}” has changes that are not saved.</source>
            <translation>Der Auftrag „{part_name}“ hat Änderungen, die nicht gespeichert sind.</translation>
        </message>
        <message>
            <source>Save them first?</source>
            <translation>Zuerst speichern?</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/proposal_box.py</name>
        <message>
            <source>All {count} find room on one platform: about {time} one after the other.</source>
            <translation>Alle {count} haben auf einer Plattform Platz: etwa {time} nacheinander.</translation>
        </message>
        <message>
            <source>No test print pays for this pose: what limits are still unsure of decides about less than 5 mm² of class A.</source>
            <translation>Für diese Lage lohnt sich kein Probedruck: Was an den Grenzwerten noch unsicher ist, entscheidet über weniger als 5 mm² der Klasse A.</translation>
        </message>
        <message>
            <source>Open a part first: what is open about its pose is asked here.</source>
            <translation>Öffnen Sie zuerst ein Teil: Hier wird gefragt, was an seiner Lage offen ist.</translation>
        </message>
        <message>
            <source>Mark the faces that show as class A first (stage 2): tests are for them.</source>
            <translation>Markieren Sie zuerst die Flächen, die man sieht, als Klasse A (Stufe 2): Für sie sind die Proben.</translation>
        </message>
        <message>
            <source>Working out which test pays …</source>
            <translation>Es wird ermittelt, welche Probe sich lohnt …</translation>
        </message>
        <message>
            <source>Take all</source>
            <translation>Alle nehmen</translation>
        </message>
        <message>
            <source>One platform …</source>
            <translation>Eine Plattform …</translation>
        </message>
        <message>
            <source>Take this piece</source>
            <translation>Dieses Stück nehmen</translation>
        </message>
        <message>
            <source>Put it on the list of pieces, from where it is saved and seen; one undo step.</source>
            <translation>Auf die Liste der Stücke setzen, von wo es gespeichert und gesehen wird; ein Schritt, den Rückgängig zurücknimmt.</translation>
        </message>
        <message>
            <source>Take piece {number}: {name}</source>
            <translation>Stück {number} nehmen: {name}</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/questions.py</name>
        <message>
            <source>The file is not sound ({verdict}): see Check for the faults and their heights.</source>
            <translation>Die Datei ist nicht in Ordnung ({verdict}): Die Fehler und ihre Höhen stehen unter Prüfen.</translation>
        </message>
        <message>
            <source>Print only the layers around the lowest fault: gaps and stray walls show at once.</source>
            <translation>Drucken Sie nur die Schichten um den untersten Fehler: Lücken und verirrte Wände zeigen sich sofort.</translation>
        </message>
        <message>
            <source>No face is marked, so nothing says which side shows.</source>
            <translation>Keine Fläche ist markiert, also sagt nichts, welche Seite sichtbar ist.</translation>
        </message>
        <message>
            <source>No print needed: mark the faces that show in stage 2.</source>
            <translation>Kein Druck nötig: Markieren Sie in Stufe 2 die sichtbaren Flächen.</translation>
        </message>
        <message>
            <source>Supports touch {area} mm² of class A. Will the scar be accepted?</source>
            <translation>Stützen liegen an {area} mm² der Klasse A an. Wird die Narbe hingenommen?</translation>
        </message>
        <message>
            <source>Print a small cut-out with its support in the materials of the job, take the support off, and show the scar to the client.</source>
            <translation>Drucken Sie einen kleinen Ausschnitt mit seiner Stütze in den Materialien des Auftrags, nehmen Sie die Stütze ab und zeigen Sie dem Kunden die Narbe.</translation>
        </message>
        <message>
            <source>Supports stand on {area} mm² of class A and may mark it.</source>
            <translation>Stützen stehen auf {area} mm² der Klasse A und hinterlassen vielleicht Spuren.</translation>
        </message>
        <message>
            <source>Print a cut-out with a support standing on it and look at the marks where it stood.</source>
            <translation>Drucken Sie einen Ausschnitt mit einer Stütze darauf und sehen Sie sich die Spuren an, wo sie stand.</translation>
        </message>
        <message>
            <source>Supports pass within {clearance_mm:g} mm of {a} mm² of class A and may mark it.</source>
            <translation>Stützen führen näher als {clearance_mm:g} mm an {a} mm² der Klasse A vorbei und hinterlassen vielleicht Spuren.</translation>
        </message>
        <message>
            <source>Print a cut-out with the support beside it and look at the side that it passed.</source>
            <translation>Drucken Sie einen Ausschnitt mit der Stütze daneben und sehen Sie sich die Seite an, an der sie vorbeiführte.</translation>
        </message>
        <message>
            <source>{area} mm² of class A has terraces wider than {width_mm:.2f} mm, from which trials say that they show. Is that accepted?</source>
            <translation>{area} mm² der Klasse A haben Treppenstufen breiter als {width_mm:.2f} mm, ab denen man sie nach Versuchen sieht. Wird das angenommen?</translation>
        </message>
        <message>
            <source>{area} mm² of class A has terraces wider than one road ({road_mm:g} mm). Do they show?</source>
            <translation>{area} mm² der Klasse A haben Treppenstufen breiter als eine Bahn ({road_mm:g} mm). Sieht man sie?</translation>
        </message>
        <message>
            <source>Print that area at {layer_mm:g} mm and at {layer_mm_2:g} mm layers and compare them at the distance from which the part is seen.</source>
            <translation>Drucken Sie diesen Bereich mit Schichten von {layer_mm:g} mm und von {layer_mm_2:g} mm und vergleichen Sie sie aus dem Abstand, aus dem das Teil gesehen wird.</translation>
        </message>
        <message>
            <source>Nothing of the part lies on the platform: it stands on supports only.</source>
            <translation>Nichts vom Teil liegt auf der Bauplattform: Es steht nur auf Stützen.</translation>
        </message>
        <message>
            <source>Print the first centimetre with its supports and push against it: it must not come loose.</source>
            <translation>Drucken Sie den ersten Zentimeter mit seinen Stützen und drücken Sie dagegen: Er darf sich nicht lösen.</translation>
        </message>
        <message>
            <source>The surface is open: {doubtful_share:.1f} % of the measured columns are undecided, so the numbers are less sure than they look.</source>
            <translation>Die Oberfläche ist offen: {doubtful_share:.1f} % der gemessenen Säulen sind unentschieden, die Zahlen also unsicherer, als sie aussehen.</translation>
        </message>
        <message>
            <source>No print needed: close the surface, then measure again.</source>
            <translation>Kein Druck nötig: Schließen Sie die Oberfläche und messen Sie dann neu.</translation>
        </message>
        <message>
            <source>The part falls over by itself: only its supports hold it up.</source>
            <translation>Das Teil fällt von selbst um: Nur seine Stützen halten es.</translation>
        </message>
        <message>
            <source>The part stands unsteadily: it tips over at {angle}°.</source>
            <translation>Das Teil steht unsicher: Es kippt bei {angle}°.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/recovering.py</name>
        <message>
            <source>Throw it away</source>
            <translation>Verwerfen</translation>
        </message>
        <message>
            <source>Really throw it away</source>
            <translation>Wirklich verwerfen</translation>
        </message>
        <message>
            <source>Showside came to a sudden end. Unsaved work on “{name}” was kept, last on {when}.</source>
            <translation>Showside hat plötzlich geendet. Ungespeicherte Arbeit an „{name}“ wurde aufgehoben, zuletzt am {when}.</translation>
        </message>
        <message>
            <source>Showside came to a sudden end. Unsaved work on “{name}” from {source} was kept, last on {when}.</source>
            <translation>Showside hat plötzlich geendet. Ungespeicherte Arbeit an „{name}“ aus {source} wurde aufgehoben, zuletzt am {when}.</translation>
        </message>
        <message>
            <source>Unsaved work</source>
            <translation>Ungespeicherte Arbeit</translation>
        </message>
        <message>
            <source>Open it</source>
            <translation>Öffnen</translation>
        </message>
        <message>
            <source>Open the work as it was kept aside last</source>
            <translation>Die Arbeit so öffnen, wie sie zuletzt aufgehoben wurde</translation>
        </message>
        <message>
            <source>Remove this unsaved work for good</source>
            <translation>Diese ungespeicherte Arbeit endgültig entfernen</translation>
        </message>
        <message>
            <source>Later</source>
            <translation>Später</translation>
        </message>
        <message>
            <source>Keep it; File &gt; Recover unsaved work offers it again</source>
            <translation>Aufheben; Datei &gt; Ungespeicherte Arbeit wiederherstellen bietet sie wieder an</translation>
        </message>
        <message>
            <source>That job was saved since, so look before you save over it.</source>
            <translation>Dieser Auftrag wurde seither gespeichert; sehen Sie nach, bevor Sie ihn überschreiben.</translation>
        </message>
        <message>
            <source>There are {count} such works; this is the latest.</source>
            <translation>Es gibt {count} solche Arbeiten; dies ist die jüngste.</translation>
        </message>
        <message>
            <source>There is no unsaved work to recover.</source>
            <translation>Es gibt keine ungespeicherte Arbeit, die wiederherzustellen wäre.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/result_words.py</name>
        <message>
            <source>touch on {name} {area} mm²</source>
            <translation>Kontakt auf {name} {area} mm²</translation>
        </message>
        <message>
            <source>wide terraces on {name} {area} mm²</source>
            <translation>breite Stufen auf {name} {area} mm²</translation>
        </message>
        <message>
            <source>Sure: at most {most} mm² of touch on {name} with {tilt}° of tilt or {limit}° of support limit.</source>
            <translation>Sicher: höchstens {most} mm² Kontakt auf {name} bei {tilt}° Kippen oder {limit}° Stützwinkel.</translation>
        </message>
        <message>
            <source>Touch on class A: the least found is {found} mm²; no direction at all has less than {least} mm².</source>
            <translation>Kontakt auf Klasse A: Der kleinste gefundene Wert ist {found} mm²; unter {least} mm² kommt keine Richtung.</translation>
        </message>
        <message>
            <source>{left} of {all} are within the limits.</source>
            <translation>{left} von {all} liegen in den Grenzen.</translation>
        </message>
        <message>
            <source>touch {area} mm²</source>
            <translation>Kontakt {area} mm²</translation>
        </message>
        <message>
            <source>How sure: not worked out yet.</source>
            <translation>Wie sicher: noch nicht ausgerechnet.</translation>
        </message>
        <message>
            <source>On a knife’s edge: up to {most} mm² of touch on {name} with {tilt}° of tilt or {limit}° of support limit, not {here} mm².</source>
            <translation>Auf Messers Schneide: bis zu {most} mm² Kontakt auf {name} bei {tilt}° Kippen oder {limit}° Stützwinkel, nicht {here} mm².</translation>
        </message>
        <message>
            <source>Nothing is marked as class A, so the part counts as a whole.</source>
            <translation>Nichts ist als Klasse A markiert, daher zählt das Teil als Ganzes.</translation>
        </message>
        <message>
            <source>Some directions need no support on class A at all.</source>
            <translation>Manche Richtungen brauchen auf Klasse A gar keine Stütze.</translation>
        </message>
        <message>
            <source>Below is what comes nearest.</source>
            <translation>Darunter steht, was dem am nächsten kommt.</translation>
        </message>
        <message>
            <source>Searching …</source>
            <translation>Suche läuft …</translation>
        </message>
        <message>
            <source>score {score:.0f}</source>
            <translation>Wertung {score:.0f}</translation>
        </message>
        <message>
            <source>support {volume}</source>
            <translation>Stützen {volume}</translation>
        </message>
        <message>
            <source>height {height} mm</source>
            <translation>Höhe {height} mm</translation>
        </message>
        <message>
            <source>about {time}</source>
            <translation>etwa {time}</translation>
        </message>
        <message>
            <source>cut out: {limits}</source>
            <translation>fällt weg: {limits}</translation>
        </message>
        <message>
            <source>direction</source>
            <translation>Richtung</translation>
        </message>
        <message>
            <source>directions</source>
            <translation>Richtungen</translation>
        </message>
        <message>
            <source>Nothing is within every limit.</source>
            <translation>Nichts liegt in allen Grenzen.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/results_box.py</name>
        <message>
            <source>Click or Return: lay the part like this. Box or Space: tick it, to compare or keep several.</source>
            <translation>Klick oder Eingabe: Teil so legen. Kästchen oder Leertaste: anhaken, um mehrere zu vergleichen oder zu merken.</translation>
        </message>
        <message>
            <source>Put the ticked results, or the chosen one, on the list of kept poses</source>
            <translation>Angehakte Ergebnisse, sonst das gewählte, auf die Liste der gemerkten Lagen setzen</translation>
        </message>
        <message>
            <source>Show the ticked results side by side</source>
            <translation>Angehakte Ergebnisse nebeneinander zeigen</translation>
        </message>
        <message>
            <source>Best directions</source>
            <translation>Beste Richtungen</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/revision_link.py</name>
        <message>
            <source>The newer file lies otherwise in its coordinates: {how}. Marks were carried over accordingly.</source>
            <translation>Die neuere Datei liegt anders in ihren Koordinaten: {how}. Die Markierungen wurden entsprechend übertragen.</translation>
        </message>
        <message>
            <source>{area} mm² of class {name}</source>
            <translation>{area} mm² der Klasse {name}</translation>
        </message>
        <message>
            <source>shifted by {shift_mm:.1f} mm</source>
            <translation>um {shift_mm:.1f} mm verschoben</translation>
        </message>
        <message>
            <source>New, so left unmarked: {count}, {lost_mm2} mm².</source>
            <translation>Neu, also unmarkiert: {count}, {lost_mm2} mm².</translation>
        </message>
        <message>
            <source>Marked before, but no longer there: {gone}.</source>
            <translation>Vorher markiert, aber nicht mehr da: {gone}.</translation>
        </message>
        <message>
            <source>turned by {turn_deg:.1f}°</source>
            <translation>um {turn_deg:.1f}° gedreht</translation>
        </message>
        <message>
            <source>turned by {turn_deg:.1f}°, shifted by {shift_mm:.1f} mm</source>
            <translation>um {turn_deg:.1f}° gedreht, um {shift_mm:.1f} mm verschoben</translation>
        </message>
        <message>
            <source>The marks were carried over to {name}.</source>
            <translation>Die Markierungen wurden auf {name} übertragen.</translation>
        </message>
        <message>
            <source>All surfaces were found, within {within_mm} mm.</source>
            <translation>Alle Oberflächen wurden gefunden, innerhalb von {within_mm} mm.</translation>
        </message>
        <message>
            <source> Look at these places and mark them.</source>
            <translation> Sehen Sie sich diese Stellen an und markieren Sie sie.</translation>
        </message>
        <message>
            <source> and </source>
            <translation> und </translation>
        </message>
    </context>
    <context>
        <name>viewer/window/risk_box.py</name>
        <message>
            <source>{from_mm:.0f} to {to_mm:.0f} mm</source>
            <translation>{from_mm:.0f} bis {to_mm:.0f} mm</translation>
        </message>
        <message>
            <source>{from_mm:.0f} mm</source>
            <translation>{from_mm:.0f} mm</translation>
        </message>
        <message>
            <source>Look there</source>
            <translation>Dorthin sehen</translation>
        </message>
        <message>
            <source>and {more} more</source>
            <translation>und {more} weitere</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/safe_keeping.py</name>
        <message>
            <source>Unsaved work cannot be kept aside: {problem}</source>
            <translation>Ungespeicherte Arbeit lässt sich nicht aufheben: {problem}</translation>
        </message>
        <message>
            <source>{name} was saved by a newer version of the program, so it can only be read here. Save it under another name to go on.</source>
            <translation>{name} hat eine neuere Fassung des Programms gespeichert; es kann hier nur gelesen werden. Speichern Sie es unter einem anderen Namen, um weiterzuarbeiten.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/search_choices.py</name>
        <message>
            <source>Change what matters</source>
            <translation>Was zählt ändern</translation>
        </message>
        <message>
            <source>Change the limits</source>
            <translation>Grenzen ändern</translation>
        </message>
        <message>
            <source>Change what decides the spin</source>
            <translation>Ändern, wonach sich die Drehung richtet</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/searching.py</name>
        <message>
            <source>{angle}° from here: {words}</source>
            <translation>{angle}° von hier: {words}</translation>
        </message>
        <message>
            <source>Walk over the direction map</source>
            <translation>Über die Richtungskarte wandern</translation>
        </message>
        <message>
            <source>{place}. Score {score:.0f}</source>
            <translation>{place}. Wertung {score:.0f}</translation>
        </message>
        <message>
            <source>Press Search to look everywhere (Shift+S).</source>
            <translation>„Suchen“ sieht überall nach (Umschalt+S).</translation>
        </message>
        <message>
            <source>Turn to a place on the map</source>
            <translation>An eine Stelle der Karte drehen</translation>
        </message>
        <message>
            <source>Go to result {place}</source>
            <translation>Zu Ergebnis {place} gehen</translation>
        </message>
        <message>
            <source>There are no results yet: search every direction first (Shift+S).</source>
            <translation>Es gibt noch keine Ergebnisse: Suchen Sie zuerst jede Richtung ab (Umschalt+S).</translation>
        </message>
        <message>
            <source>Choose a result that is not kept yet, or tick several.</source>
            <translation>Wählen Sie ein Ergebnis, das noch nicht gemerkt ist, oder haken Sie mehrere an.</translation>
        </message>
        <message>
            <source>Older than the marks or the process.</source>
            <translation>Älter als die Markierungen oder der Prozess.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/settings_dialog.py</name>
        <message>
            <source>as on the desktop</source>
            <translation>wie am Desktop</translation>
        </message>
        <message>
            <source>large</source>
            <translation>groß</translation>
        </message>
        <message>
            <source>very large</source>
            <translation>sehr groß</translation>
        </message>
        <message>
            <source>light</source>
            <translation>hell</translation>
        </message>
        <message>
            <source>dark</source>
            <translation>dunkel</translation>
        </message>
        <message>
            <source>Settings</source>
            <translation>Einstellungen</translation>
        </message>
        <message>
            <source>Size of type</source>
            <translation>Schriftgröße</translation>
        </message>
        <message>
            <source>In percent of what the desktop says; from the next start on</source>
            <translation>In Prozent dessen, was der Desktop sagt; ab dem nächsten Start</translation>
        </message>
        <message>
            <source>Pointer</source>
            <translation>Mauszeiger</translation>
        </message>
        <message>
            <source>A large pointer is easier to find, for oneself and for others on a call</source>
            <translation>Einen großen Zeiger findet man leichter, auch andere in einem Gespräch am Bildschirm</translation>
        </message>
        <message>
            <source>Files without a unit are in</source>
            <translation>Dateien ohne Einheit gelten als</translation>
        </message>
        <message>
            <source>STL, OBJ, PLY and OFF name no unit. Asking takes the numbers as mm and asks where they look wrong.</source>
            <translation>STL, OBJ, PLY und OFF nennen keine Einheit. Fragen heißt: Die Zahlen gelten als mm, und wo das unwahrscheinlich aussieht, wird gefragt.</translation>
        </message>
        <message>
            <source>Start with the job that was open last</source>
            <translation>Mit dem zuletzt offenen Auftrag beginnen</translation>
        </message>
        <message>
            <source>Otherwise a start shows the first page</source>
            <translation>Sonst zeigt der Start die erste Seite</translation>
        </message>
        <message>
            <source>Language and size of type change with the next start, all else at once.</source>
            <translation>Sprache und Schriftgröße ändern sich mit dem nächsten Start, alles andere sofort.</translation>
        </message>
        <message>
            <source>Language</source>
            <translation>Sprache</translation>
        </message>
        <message>
            <source>From the next start on</source>
            <translation>Ab dem nächsten Start</translation>
        </message>
        <message>
            <source>Theme</source>
            <translation>Farben</translation>
        </message>
        <message>
            <source>Light or dark colours</source>
            <translation>Helle oder dunkle Farben</translation>
        </message>
        <message>
            <source>mm, and ask in doubt</source>
            <translation>mm, im Zweifel fragen</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/sheet_box.py</name>
        <message>
            <source>Who the part is printed for; stands on the sheet and is kept in the job</source>
            <translation>Für wen das Teil gedruckt wird; steht auf dem Kundenblatt und bleibt im Auftrag</translation>
        </message>
        <message>
            <source>In which language the sheet is written, whatever the window speaks</source>
            <translation>In welcher Sprache das Kundenblatt geschrieben wird, was auch immer das Fenster spricht</translation>
        </message>
        <message>
            <source>Width of upright cells by which the bulk of the supports is thinned, between walls of 0.8 mm; 0 leaves it whole. The layers next to the part stay whole.</source>
            <translation>Breite der senkrechten Zellen, mit denen das Innere der Stützen ausgedünnt wird, zwischen Wänden von 0,8 mm; 0 lässt es ganz. Die Schichten am Teil bleiben ganz.</translation>
        </message>
        <message>
            <source>A pack holds the posed part, supports and space to keep clear as bodies, test pieces, layers, the sheets and the job, read back and with checksums.</source>
            <translation>Ein Paket enthält das gelegte Teil, Stützen und freizuhaltenden Raum als Körper, Probestücke, Schichten, die Kundenblätter und den Auftrag, zurückgelesen und mit Prüfsummen.</translation>
        </message>
        <message>
            <source>Name of the client</source>
            <translation>Name des Auftraggebers</translation>
        </message>
        <message>
            <source>Language of the sheet</source>
            <translation>Sprache des Kundenblatts</translation>
        </message>
        <message>
            <source>As the window</source>
            <translation>Wie das Fenster</translation>
        </message>
        <message>
            <source>Thin the supports</source>
            <translation>Ausdünnen</translation>
        </message>
        <message>
            <source>Client</source>
            <translation>Auftraggeber</translation>
        </message>
        <message>
            <source>Pack</source>
            <translation>Paket</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/sheet_desk.py</name>
        <message>
            <source>Packed and read back: {count} files in {path}</source>
            <translation>Gepackt und zurückgelesen: {count} Dateien in {path}</translation>
        </message>
        <message>
            <source>client-sheet</source>
            <translation>kundenblatt</translation>
        </message>
        <message>
            <source>Sent to the printer: {count} pages</source>
            <translation>An den Drucker geschickt: {count} Seiten</translation>
        </message>
        <message>
            <source>pack</source>
            <translation>paket</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/sheet_preview.py</name>
        <message>
            <source>Pages of the client sheet</source>
            <translation>Seiten des Kundenblatts</translation>
        </message>
        <message>
            <source>Back to the window (Esc)</source>
            <translation>Zurück zum Fenster (Esc)</translation>
        </message>
        <message>
            <source>As HTML the part can be turned, with {now:,} of {before:,} faces, at most {most_mm:.2g} mm off.</source>
            <translation>Als HTML lässt sich das Teil drehen, mit {now:,} von {before:,} Flächen, höchstens {most_mm:.2g} mm daneben.</translation>
        </message>
        <message>
            <source>Smaller</source>
            <translation>Kleiner</translation>
        </message>
        <message>
            <source>Show the pages smaller</source>
            <translation>Die Seiten kleiner zeigen</translation>
        </message>
        <message>
            <source>Larger</source>
            <translation>Größer</translation>
        </message>
        <message>
            <source>Show the pages larger</source>
            <translation>Die Seiten größer zeigen</translation>
        </message>
        <message>
            <source>Save …</source>
            <translation>Speichern …</translation>
        </message>
        <message>
            <source>Print …</source>
            <translation>Drucken …</translation>
        </message>
        <message>
            <source>Page {page} of {count}</source>
            <translation>Seite {page} von {count}</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/shop_chooser.py</name>
        <message>
            <source>The machine that prints the job; after a name stands what it lacks.</source>
            <translation>Die Maschine, die den Auftrag druckt; nach einem Namen steht, was ihr fehlt.</translation>
        </message>
        <message>
            <source>The materials of part and supports, and how the two part.</source>
            <translation>Die Materialien von Teil und Stützen und wie sie sich trennen.</translation>
        </message>
        <message>
            <source>Walls, fill, speeds and order of the materials.</source>
            <translation>Wände, Füllung, Geschwindigkeiten und Reihenfolge der Materialien.</translation>
        </message>
        <message>
            <source>Walls and fill</source>
            <translation>Wände und Füllung</translation>
        </message>
        <message>
            <source>Copies</source>
            <translation>Kopien</translation>
        </message>
        <message>
            <source>How many are printed at once; time, material and money are those of all.</source>
            <translation>Wie viele auf einmal gedruckt werden; Zeit, Material und Geld gelten für alle.</translation>
        </message>
        <message>
            <source>Side by side, boxes a gap apart; the gap is of walls and fill.</source>
            <translation>Nebeneinander, mit Abstand; der Abstand steht bei Wände und Füllung.</translation>
        </message>
        <message>
            <source>{name} – too few materials</source>
            <translation>{name} – zu wenige Materialien</translation>
        </message>
        <message>
            <source>{name} – not in this shop</source>
            <translation>{name} – nicht in dieser Werkstatt</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/shop_column.py</name>
        <message>
            <source>What this pose takes on the chosen machine; a click shows the rest.</source>
            <translation>Was diese Lage auf der gewählten Maschine braucht; ein Klick zeigt den Rest.</translation>
        </message>
        <message>
            <source>Shop</source>
            <translation>Werkstatt</translation>
        </message>
        <message>
            <source>Outlined and hatched in the scene (M).</source>
            <translation>In der Szene umrandet und schraffiert (M).</translation>
        </message>
        <message>
            <source>Whether part and supports lie within what each nozzle reaches, at some place.</source>
            <translation>Ob Teil und Stützen irgendwo in dem liegen, was jede Düse erreicht.</translation>
        </message>
        <message>
            <source>Turn to fit</source>
            <translation>Passend drehen</translation>
        </message>
        <message>
            <source>What may go wrong in this pose; limits are common practice.</source>
            <translation>Was in dieser Lage misslingen kann; die Grenzen sind übliche Praxis.</translation>
        </message>
        <message>
            <source>Known when the part lies still and is measured.</source>
            <translation>Bekannt, sobald das Teil ruht und gemessen ist.</translation>
        </message>
        <message>
            <source>Risks</source>
            <translation>Risiken</translation>
        </message>
        <message>
            <source>What is known of the pair</source>
            <translation>Was man von der Paarung weiß</translation>
        </message>
        <message>
            <source>Cautions</source>
            <translation>Warnhinweise</translation>
        </message>
        <message>
            <source>Left aside</source>
            <translation>Beiseitegelassen</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/shop_fields.py</name>
        <message>
            <source>Machines</source>
            <translation>Maschinen</translation>
        </message>
        <message>
            <source>Materials</source>
            <translation>Materialien</translation>
        </message>
        <message>
            <source>Pairs</source>
            <translation>Paarungen</translation>
        </message>
        <message>
            <source>cut off</source>
            <translation>abschneiden</translation>
        </message>
        <message>
            <source>peel off</source>
            <translation>abziehen</translation>
        </message>
        <message>
            <source>water</source>
            <translation>Wasser</translation>
        </message>
        <message>
            <source>solvent</source>
            <translation>Lösemittel</translation>
        </message>
        <message>
            <source>little</source>
            <translation>wenig</translation>
        </message>
        <message>
            <source>some</source>
            <translation>etwas</translation>
        </message>
        <message>
            <source>oozes</source>
            <translation>läuft nach</translation>
        </message>
        <message>
            <source>strings</source>
            <translation>zieht Fäden</translation>
        </message>
        <message>
            <source>chars</source>
            <translation>verkohlt</translation>
        </message>
        <message>
            <source>alternating</source>
            <translation>abwechselnd</translation>
        </message>
        <message>
            <source>fixed</source>
            <translation>fest</translation>
        </message>
        <message>
            <source>Between {low:g} and {high:,g}{unit}.</source>
            <translation>Zwischen {low:g} und {high:,g}{unit}.</translation>
        </message>
        <message>
            <source>Diameter</source>
            <translation>Durchmesser</translation>
        </message>
        <message>
            <source>Flow limit</source>
            <translation>Durchflussgrenze</translation>
        </message>
        <message>
            <source>The most that it melts in a second.</source>
            <translation>So viel schmilzt sie höchstens in einer Sekunde.</translation>
        </message>
        <message>
            <source>Reach from</source>
            <translation>Reicht von</translation>
        </message>
        <message>
            <source>Lower corner of the box it reaches; x and y are 0 at the platform's centre.</source>
            <translation>Untere Ecke des Quaders, den sie erreicht; x und y sind in der Mitte der Bauplattform 0.</translation>
        </message>
        <message>
            <source>Reach to</source>
            <translation>Reicht bis</translation>
        </message>
        <message>
            <source>Upper corner of that box.</source>
            <translation>Obere Ecke dieses Quaders.</translation>
        </message>
        <message>
            <source>Lower corner of the rectangle.</source>
            <translation>Untere Ecke des Rechtecks.</translation>
        </message>
        <message>
            <source>Upper corner of the rectangle.</source>
            <translation>Obere Ecke des Rechtecks.</translation>
        </message>
        <message>
            <source>Up to</source>
            <translation>Bis zu</translation>
        </message>
        <message>
            <source>Height up to which it stays free; 0 for any.</source>
            <translation>Höhe, bis zu der er frei bleibt; 0 für jede.</translation>
        </message>
        <message>
            <source>Build volume</source>
            <translation>Bauraum</translation>
        </message>
        <message>
            <source>Width, depth and height.</source>
            <translation>Breite, Tiefe und Höhe.</translation>
        </message>
        <message>
            <source>Nozzles</source>
            <translation>Düsen</translation>
        </message>
        <message>
            <source>Each with the box it reaches, which two rarely share.</source>
            <translation>Jede mit dem Quader, den sie erreicht und den zwei selten teilen.</translation>
        </message>
        <message>
            <source>Shared nozzle</source>
            <translation>Gemeinsame Düse</translation>
        </message>
        <message>
            <source>All materials go through one nozzle, which is purged at each change.</source>
            <translation>Alle Materialien gehen durch eine Düse, die bei jedem Wechsel gespült wird.</translation>
        </message>
        <message>
            <source>Materials loaded</source>
            <translation>Geladene Materialien</translation>
        </message>
        <message>
            <source>How many at once.</source>
            <translation>Wie viele auf einmal.</translation>
        </message>
        <message>
            <source>Travel</source>
            <translation>Leerfahrt</translation>
        </message>
        <message>
            <source>Speed of moves without printing.</source>
            <translation>Geschwindigkeit von Fahrten ohne Drucken.</translation>
        </message>
        <message>
            <source>Acceleration</source>
            <translation>Beschleunigung</translation>
        </message>
        <message>
            <source>Of all moves.</source>
            <translation>Aller Bewegungen.</translation>
        </message>
        <message>
            <source>Tool change</source>
            <translation>Materialwechsel</translation>
        </message>
        <message>
            <source>Time of a change of material, without what is purged.</source>
            <translation>Dauer eines Materialwechsels, ohne das Spülen.</translation>
        </message>
        <message>
            <source>Purge</source>
            <translation>Spülen</translation>
        </message>
        <message>
            <source>Pushed through a shared nozzle at each change.</source>
            <translation>Bei jedem Wechsel durch eine gemeinsame Düse gedrückt.</translation>
        </message>
        <message>
            <source>Prime</source>
            <translation>Anspritzen</translation>
        </message>
        <message>
            <source>Pushed out when a nozzle of its own takes over.</source>
            <translation>Herausgedrückt, wenn eine eigene Düse übernimmt.</translation>
        </message>
        <message>
            <source>Purge body</source>
            <translation>Spülkörper</translation>
        </message>
        <message>
            <source>Foot of the body printed beside the part out of what is purged; 0 for none.</source>
            <translation>Fuß des Körpers, der neben dem Teil aus dem Gespülten gedruckt wird; 0 für keinen.</translation>
        </message>
        <message>
            <source>Lowest layer</source>
            <translation>Niedrigste Schicht</translation>
        </message>
        <message>
            <source>Highest layer</source>
            <translation>Höchste Schicht</translation>
        </message>
        <message>
            <source>Start</source>
            <translation>Start</translation>
        </message>
        <message>
            <source>Heating, levelling and cooling down.</source>
            <translation>Aufheizen, Einmessen und Abkühlen.</translation>
        </message>
        <message>
            <source>Layer change</source>
            <translation>Schichtwechsel</translation>
        </message>
        <message>
            <source>Moving up, at each layer.</source>
            <translation>Hochfahren, bei jeder Schicht.</translation>
        </message>
        <message>
            <source>Hourly rate</source>
            <translation>Stundensatz</translation>
        </message>
        <message>
            <source>Money for an hour.</source>
            <translation>Geld für eine Stunde.</translation>
        </message>
        <message>
            <source>Currency</source>
            <translation>Währung</translation>
        </message>
        <message>
            <source>In up to 8 letters.</source>
            <translation>In bis zu 8 Zeichen.</translation>
        </message>
        <message>
            <source>Forbidden areas</source>
            <translation>Sperrbereiche</translation>
        </message>
        <message>
            <source>Rectangles of the platform that must stay free.</source>
            <translation>Rechtecke der Bauplattform, die frei bleiben müssen.</translation>
        </message>
        <message>
            <source>Notes</source>
            <translation>Notizen</translation>
        </message>
        <message>
            <source>Density</source>
            <translation>Dichte</translation>
        </message>
        <message>
            <source>Price per kg</source>
            <translation>Preis je kg</translation>
        </message>
        <message>
            <source>In the machine's currency.</source>
            <translation>In der Währung der Maschine.</translation>
        </message>
        <message>
            <source>The most that melts well in a second.</source>
            <translation>So viel schmilzt höchstens gut in einer Sekunde.</translation>
        </message>
        <message>
            <source>Minimum layer time</source>
            <translation>Kürzeste Schichtzeit</translation>
        </message>
        <message>
            <source>A layer printed quicker is still soft under the next one.</source>
            <translation>Eine schneller gedruckte Schicht ist unter der nächsten noch weich.</translation>
        </message>
        <message>
            <source>What it spans in the air.</source>
            <translation>Was es in der Luft überspannt.</translation>
        </message>
        <message>
            <source>The smallest inclination from horizontal that holds itself up.</source>
            <translation>Die kleinste Neigung gegen die Waagerechte, die sich selbst hält.</translation>
        </message>
        <message>
            <source>Flexible</source>
            <translation>Biegsam</translation>
        </message>
        <message>
            <source>It wobbles on tall slender sections.</source>
            <translation>Es schwankt an hohen schlanken Stellen.</translation>
        </message>
        <message>
            <source>Warping</source>
            <translation>Verzug</translation>
        </message>
        <message>
            <source>How much its corners lift.</source>
            <translation>Wie stark sich die Ecken heben.</translation>
        </message>
        <message>
            <source>When idle</source>
            <translation>Im Stillstand</translation>
        </message>
        <message>
            <source>What it does in a hot nozzle that waits.</source>
            <translation>Was es in einer heißen, wartenden Düse tut.</translation>
        </message>
        <message>
            <source>Drying</source>
            <translation>Trocknen</translation>
        </message>
        <message>
            <source>Emissions</source>
            <translation>Emissionen</translation>
        </message>
        <message>
            <source>Part</source>
            <translation>Teil</translation>
        </message>
        <message>
            <source>What the part is made of.</source>
            <translation>Woraus das Teil besteht.</translation>
        </message>
        <message>
            <source>Support body</source>
            <translation>Stützkörper</translation>
        </message>
        <message>
            <source>The bulk of the supports.</source>
            <translation>Der Hauptteil der Stützen.</translation>
        </message>
        <message>
            <source>Contact layers of</source>
            <translation>Kontaktschichten aus</translation>
        </message>
        <message>
            <source>The few layers next to the part; may be of another material.</source>
            <translation>Die wenigen Schichten am Teil; auch aus einem anderen Material.</translation>
        </message>
        <message>
            <source>Contact layers</source>
            <translation>Kontaktschichten</translation>
        </message>
        <message>
            <source>How many.</source>
            <translation>Wie viele.</translation>
        </message>
        <message>
            <source>Contact gap</source>
            <translation>Kontaktspalt</translation>
        </message>
        <message>
            <source>Left between part and support; 0 where unlike materials part by themselves.</source>
            <translation>Bleibt zwischen Teil und Stütze; 0, wo ungleiche Materialien sich von selbst trennen.</translation>
        </message>
        <message>
            <source>Support density</source>
            <translation>Stützdichte</translation>
        </message>
        <message>
            <source>Share that is filled.</source>
            <translation>Anteil, der gefüllt ist.</translation>
        </message>
        <message>
            <source>Contact density</source>
            <translation>Kontaktdichte</translation>
        </message>
        <message>
            <source>Removal</source>
            <translation>Entfernen</translation>
        </message>
        <message>
            <source>How the support comes off.</source>
            <translation>Wie die Stütze abgeht.</translation>
        </message>
        <message>
            <source>Solvent</source>
            <translation>Lösemittel</translation>
        </message>
        <message>
            <source>The liquid that dissolves it.</source>
            <translation>Die Flüssigkeit, die sie löst.</translation>
        </message>
        <message>
            <source>Bond</source>
            <translation>Haftung</translation>
        </message>
        <message>
            <source>What is known about how the two hold together.</source>
            <translation>Was man darüber weiß, wie die beiden haften.</translation>
        </message>
        <message>
            <source>Bond, source</source>
            <translation>Haftung, Quelle</translation>
        </message>
        <message>
            <source>From where.</source>
            <translation>Woher.</translation>
        </message>
        <message>
            <source>How a face comes out that the support bore against.</source>
            <translation>Wie eine Fläche wird, an der die Stütze anlag.</translation>
        </message>
        <message>
            <source>Weight of touch</source>
            <translation>Gewicht des Kontakts</translation>
        </message>
        <message>
            <source>How much worse a touched face is than a clean one: 0 as clean, 1 as after breaking off. Ranking weighs touch by it.</source>
            <translation>Wie viel schlechter eine Kontaktfläche ist als eine saubere: 0 wie sauber, 1 wie nach dem Abbrechen. Die Rangfolge gewichtet den Kontakt damit.</translation>
        </message>
        <message>
            <source>Walls</source>
            <translation>Wände</translation>
        </message>
        <message>
            <source>Roads along each outline.</source>
            <translation>Bahnen entlang jeder Kontur.</translation>
        </message>
        <message>
            <source>Full layers</source>
            <translation>Volle Schichten</translation>
        </message>
        <message>
            <source>At tops and bottoms.</source>
            <translation>An Ober- und Unterseiten.</translation>
        </message>
        <message>
            <source>Fill density</source>
            <translation>Fülldichte</translation>
        </message>
        <message>
            <source>Share of the inside.</source>
            <translation>Anteil des Inneren.</translation>
        </message>
        <message>
            <source>Walls, speed</source>
            <translation>Wände, Tempo</translation>
        </message>
        <message>
            <source>Fill, speed</source>
            <translation>Füllung, Tempo</translation>
        </message>
        <message>
            <source>Supports, speed</source>
            <translation>Stützen, Tempo</translation>
        </message>
        <message>
            <source>First layer, speed</source>
            <translation>Erste Schicht, Tempo</translation>
        </message>
        <message>
            <source>Order</source>
            <translation>Reihenfolge</translation>
        </message>
        <message>
            <source>Alternating starts each layer with the material of the last; fixed prints support first in every layer.</source>
            <translation>Abwechselnd beginnt jede Schicht mit dem Material der letzten; fest druckt in jeder Schicht zuerst die Stütze.</translation>
        </message>
        <message>
            <source>Spacing</source>
            <translation>Abstand</translation>
        </message>
        <message>
            <source>Gap between copies on the platform.</source>
            <translation>Abstand zwischen Kopien auf der Bauplattform.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/shop_rows.py</name>
        <message>
            <source>{time} h</source>
            <translation>{time} h</translation>
        </message>
        <message>
            <source>{names}: {time}, {mass} g, as if each were printed by itself but for the start.</source>
            <translation>{names}: {time}, {mass} g, als würde jedes für sich gedruckt, nur ohne eigenen Anlauf.</translation>
        </message>
        <message>
            <source>{hours} h {minutes:02d} min</source>
            <translation>{hours} h {minutes:02d} min</translation>
        </message>
        <message>
            <source>{minutes} min</source>
            <translation>{minutes} min</translation>
        </message>
        <message>
            <source>It fits as it is laid.</source>
            <translation>Es passt, wie es liegt.</translation>
        </message>
        <message>
            <source> Also fits: {names}.</source>
            <translation> Passt auch: {names}.</translation>
        </message>
        <message>
            <source> No other machine fits.</source>
            <translation> Auf keine andere Maschine passt es.</translation>
        </message>
        <message>
            <source>{over_mm} mm too large</source>
            <translation>{over_mm} mm zu groß</translation>
        </message>
        <message>
            <source>of it {part}</source>
            <translation>davon {part}</translation>
        </message>
        <message>
            <source>of it purged</source>
            <translation>davon gespült</translation>
        </message>
        <message>
            <source>of it supports</source>
            <translation>davon Stützen</translation>
        </message>
        <message>
            <source>The machine cannot print {names}.</source>
            <translation>Die Maschine kann nicht drucken: {names}.</translation>
        </message>
        <message>
            <source>of it test pieces beside</source>
            <translation>davon Probestücke daneben</translation>
        </message>
        <message>
            <source>! cannot be printed so</source>
            <translation>! so nicht druckbar</translation>
        </message>
        <message>
            <source>! not so</source>
            <translation>! so nicht</translation>
        </message>
        <message>
            <source>{material}: {grams} g, {metres:.1f} m of filament of {diameter_mm:g} mm</source>
            <translation>{material}: {grams} g, {metres:.1f} m Filament von {diameter_mm:g} mm</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/shop_words.py</name>
        <message>
            <source>cut or broken off</source>
            <translation>abgeschnitten oder abgebrochen</translation>
        </message>
        <message>
            <source>peeled off</source>
            <translation>abgezogen</translation>
        </message>
        <message>
            <source>dissolved in water</source>
            <translation>in Wasser gelöst</translation>
        </message>
        <message>
            <source>dissolved in a solvent</source>
            <translation>in Lösemittel gelöst</translation>
        </message>
        <message>
            <source>At most {most} find room on the platform.</source>
            <translation>Höchstens {most} finden auf der Bauplattform Platz.</translation>
        </message>
        <message>
            <source>At most {most} find room beside {names}.</source>
            <translation>Höchstens {most} finden neben {names} Platz.</translation>
        </message>
        <message>
            <source>{most} and more find room on the platform.</source>
            <translation>{most} und mehr finden auf der Bauplattform Platz.</translation>
        </message>
        <message>
            <source>Support is {removal}.</source>
            <translation>Die Stütze wird {removal}.</translation>
        </message>
        <message>
            <source>Also fits: {names}.</source>
            <translation>Passt auch: {names}.</translation>
        </message>
        <message>
            <source>No other machine of the shop fits.</source>
            <translation>Keine andere Maschine der Werkstatt passt.</translation>
        </message>
        <message>
            <source>At most {most} find room.</source>
            <translation>Höchstens {most} finden Platz.</translation>
        </message>
        <message>
            <source>Touched face: {words}.</source>
            <translation>Berührte Fläche: {words}.</translation>
        </message>
        <message>
            <source>Bond: {words}.</source>
            <translation>Haftung: {words}.</translation>
        </message>
        <message>
            <source>Source: {words}.</source>
            <translation>Quelle: {words}.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/specimen_box.py</name>
        <message>
            <source>What the specimen tries: angles in degrees, or lengths in mm, with blanks between them. Unless typed they follow from the machine, the pair and the process that are chosen.</source>
            <translation>Was der Probekörper probiert: Winkel in Grad oder Längen in mm, mit Leerzeichen dazwischen. Nicht eingetippt folgen sie aus Maschine, Paar und Prozess, die gewählt sind.</translation>
        </message>
        <message>
            <source>{steps}, {low} to {high}{unit}.</source>
            <translation>{steps}, {low} bis {high}{unit}.</translation>
        </message>
        <message>
            <source>Specimen</source>
            <translation>Probekörper</translation>
        </message>
        <message>
            <source>Steps of the specimen</source>
            <translation>Stufen des Probekörpers</translation>
        </message>
        <message>
            <source>Shows what a machine and its materials can do, before a part is risked.</source>
            <translation>Zeigt, was eine Maschine und ihre Materialien können, bevor ein Teil gewagt wird.</translation>
        </message>
        <message>
            <source>Add</source>
            <translation>Hinzufügen</translation>
        </message>
        <message>
            <source>Usual steps</source>
            <translation>Übliche Stufen</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/specimen_work.py</name>
        <message>
            <source>Give numbers with blanks between them, such as 30 40 50.</source>
            <translation>Geben Sie Zahlen mit Leerzeichen dazwischen an, etwa 30 40 50.</translation>
        </message>
        <message>
            <source>Add the specimen</source>
            <translation>Probekörper hinzufügen</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/spin_rules.py</name>
        <message>
            <source>Least rectangle</source>
            <translation>Kleinstes Rechteck</translation>
        </message>
        <message>
            <source>Seam away from class A</source>
            <translation>Naht abseits von Klasse A</translation>
        </message>
        <message>
            <source>Seam on the side in view</source>
            <translation>Naht auf der sichtbaren Seite</translation>
        </message>
        <message>
            <source>Walls along X or Y</source>
            <translation>Wände längs X oder Y</translation>
        </message>
        <message>
            <source>Leave the spin</source>
            <translation>Drehung lassen</translation>
        </message>
        <message>
            <source>The part takes the least rectangle of the platform.</source>
            <translation>Das Teil nimmt das kleinste Rechteck der Bauplattform ein.</translation>
        </message>
        <message>
            <source>Where each layer begins, at the back of the machine, the least of class A is seen.</source>
            <translation>Wo jede Schicht beginnt, hinten in der Maschine, ist am wenigsten von Klasse A zu sehen.</translation>
        </message>
        <message>
            <source>The side of the part that you look at comes to the back of the machine, where each layer begins.</source>
            <translation>Die Seite des Teils, auf die Sie sehen, kommt nach hinten in der Maschine, wo jede Schicht beginnt.</translation>
        </message>
        <message>
            <source>The longest walls of class A lie along X or Y, so that one axis draws them alone and no pattern of both shows on them.</source>
            <translation>Die längsten Wände der Klasse A liegen längs X oder Y: Eine Achse zieht sie allein, und kein Muster beider ist auf ihnen zu sehen.</translation>
        </message>
        <message>
            <source>The spin stays as it is.</source>
            <translation>Die Drehung bleibt, wie sie ist.</translation>
        </message>
        <message>
            <source>Every side is alike for the seam, so the spin stays as it is.</source>
            <translation>Für die Naht sind alle Seiten gleich, daher bleibt die Drehung, wie sie ist.</translation>
        </message>
        <message>
            <source>You look at the part from above or below: turn the view to the side that may carry the seam, then choose it again.</source>
            <translation>Sie sehen von oben oder unten auf das Teil: Drehen Sie die Ansicht auf die Seite, die die Naht tragen darf, und wählen Sie noch einmal.</translation>
        </message>
        <message>
            <source>No wall stands out that could lie along X or Y.</source>
            <translation>Keine Wand hebt sich so ab, dass man sie längs X oder Y legen könnte.</translation>
        </message>
        <message>
            <source>Seam at the back: {facing} mm² of the part face it, of at most {most}. Along X or Y: {share} % of its walls.</source>
            <translation>Naht hinten: {facing} mm² des Teils zeigen dorthin, von höchstens {most}. Längs X oder Y: {share} % seiner Wände.</translation>
        </message>
        <message>
            <source>Seam at the back: {facing} mm² of class A face it, of at most {most}. Along X or Y: {share} % of its walls.</source>
            <translation>Naht hinten: {facing} mm² der Klasse A zeigen dorthin, von höchstens {most}. Längs X oder Y: {share} % ihrer Wände.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/spinning.py</name>
        <message>
            <source>Least platform rectangle</source>
            <translation>Kleinstes Plattformrechteck</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/split_box.py</name>
        <message>
            <source>Place to split</source>
            <translation>Stelle zum Teilen</translation>
        </message>
        <message>
            <source>Planes that cross no face of class A, the best first: shares of the length, and the area of the cut face.</source>
            <translation>Ebenen, die keine Fläche der Klasse A schneiden, die beste zuerst: Anteile an der Länge und Inhalt der Schnittfläche.</translation>
        </message>
        <message>
            <source>Lay for the least touch</source>
            <translation>Für wenig Kontakt legen</translation>
        </message>
        <message>
            <source>Lay each half as the whole or on its cut face, whichever shows less touch and fewer terraces on class A. Otherwise both lie as the whole.</source>
            <translation>Jede Hälfte wie das Ganze oder auf ihre Schnittfläche legen, je nachdem, was weniger Kontakt und Treppenstufen auf Klasse A zeigt. Sonst liegen beide wie das Ganze.</translation>
        </message>
        <message>
            <source>Here {words}</source>
            <translation>Hier {words}</translation>
        </message>
        <message>
            <source>Look for a place</source>
            <translation>Stelle suchen</translation>
        </message>
        <message>
            <source>Look for planes that part the piece to be made without crossing class A.</source>
            <translation>Ebenen suchen, die das endgültige Teil teilen, ohne Klasse A zu schneiden.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/split_words.py</name>
        <message>
            <source>{share:.0f} : {rest:.0f} %, {area} mm²</source>
            <translation>{share:.0f} : {rest:.0f} %, {area} mm²</translation>
        </message>
        <message>
            <source>supports touch {after} instead of {before} mm² of class A, and {steps_after} instead of {steps_before} mm² of it have terraces wider than a road.</source>
            <translation>berühren Stützen {after} statt {before} mm² von Klasse A, und {steps_after} statt {steps_before} mm² davon haben Treppenstufen, die breiter als eine Bahn sind.</translation>
        </message>
        <message>
            <source>Every plane that was tried crosses a face of class A; there is no place.</source>
            <translation>Jede Ebene, die probiert wurde, schneidet eine Fläche der Klasse A; es gibt keine Stelle.</translation>
        </message>
        <message>
            <source>The part does not fit “{machine}”: {why}</source>
            <translation>Das Teil passt nicht auf „{machine}“: {why}</translation>
        </message>
        <message>
            <source>Both halves fit at {count} of the places found.</source>
            <translation>An {count} der gefundenen Stellen passen beide Hälften.</translation>
        </message>
        <message>
            <source>No place was found at which both halves fit.</source>
            <translation>Keine Stelle wurde gefunden, an der beide Hälften passen.</translation>
        </message>
        <message>
            <source>It would come out cleaner in two:</source>
            <translation>In zwei Hälften würde es sauberer; dann:</translation>
        </message>
        <message>
            <source>In two it comes out no cleaner:</source>
            <translation>In zwei Hälften wird es nicht sauberer; dann:</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/stage_list.py</name>
        <message>
            <source>{what_to_do} (Ctrl+{stage})</source>
            <translation>{what_to_do} (Strg+{stage})</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/stages.py</name>
        <message>
            <source>question</source>
            <translation>Frage</translation>
        </message>
        <message>
            <source>questions</source>
            <translation>Fragen</translation>
        </message>
        <message>
            <source>Check</source>
            <translation>Prüfen</translation>
        </message>
        <message>
            <source>Mark</source>
            <translation>Markieren</translation>
        </message>
        <message>
            <source>Try</source>
            <translation>Erproben</translation>
        </message>
        <message>
            <source>Hand over</source>
            <translation>Übergeben</translation>
        </message>
        <message>
            <source>See whether the file can be printed, and whether its size is right.</source>
            <translation>Sehen Sie, ob sich die Datei drucken lässt und ob die Größe stimmt.</translation>
        </message>
        <message>
            <source>Drag over the faces that will show.</source>
            <translation>Ziehen Sie über die Flächen, die sichtbar sind.</translation>
        </message>
        <message>
            <source>Drag a ring until the faces that show stay free of support.</source>
            <translation>Ziehen Sie an einem Ring, bis die sichtbaren Flächen ohne Stützen bleiben.</translation>
        </message>
        <message>
            <source>See what is still open, and print a small test for it.</source>
            <translation>Sehen Sie, was noch offen ist, und drucken Sie eine kleine Probe dafür.</translation>
        </message>
        <message>
            <source>Write the part as it will stand on the platform.</source>
            <translation>Schreiben Sie das Teil, wie es auf der Bauplattform stehen wird.</translation>
        </message>
        <message>
            <source>Left or right: turn the view · middle: shift it · wheel: come closer</source>
            <translation>Links oder rechts: Ansicht drehen · Mitte: verschieben · Rad: näher heran</translation>
        </message>
        <message>
            <source>Left: mark · right: turn the view · middle: shift it · wheel: come closer</source>
            <translation>Links: markieren · rechts: Ansicht drehen · Mitte: verschieben · Rad: näher heran</translation>
        </message>
        <message>
            <source>Left on a ring: turn the part · right: turn the view · middle: shift it · wheel: come closer</source>
            <translation>Links auf einem Ring: Teil drehen · rechts: Ansicht drehen · Mitte: verschieben · Rad: näher heran</translation>
        </message>
        <message>
            <source>done</source>
            <translation>fertig</translation>
        </message>
        <message>
            <source>needs a look</source>
            <translation>ansehen</translation>
        </message>
        <message>
            <source>Click the face that shall lie on the platform.</source>
            <translation>Klicken Sie die Fläche an, die auf der Bauplattform liegen soll.</translation>
        </message>
        <message>
            <source>Left on a face: stand the part on it · right: turn the view · middle: shift it · wheel: come closer</source>
            <translation>Links auf einer Fläche: Teil darauf stellen · rechts: Ansicht drehen · Mitte: verschieben · Rad: näher heran</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/stand_tool.py</name>
        <message>
            <source>Click to stand the part on this face ({area} mm²); without supports it tips over</source>
            <translation>Klicken Sie, um das Teil auf diese Fläche zu stellen ({area} mm²); ohne Stützen kippt es um</translation>
        </message>
        <message>
            <source>Click to stand the part on this face ({area} mm²)</source>
            <translation>Klicken Sie, um das Teil auf diese Fläche zu stellen ({area} mm²)</translation>
        </message>
        <message>
            <source>Stand on a face</source>
            <translation>Auf eine Fläche stellen</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/step_rows.py</name>
        <message>
            <source>Ra, {step}</source>
            <translation>Ra, {step}</translation>
        </message>
        <message>
            <source>Measured roughness Ra; 0 where it was not measured.</source>
            <translation>Gemessene Rauheit Ra; 0, wo sie nicht gemessen wurde.</translation>
        </message>
        <message>
            <source>Terrace, {step}</source>
            <translation>Treppenstufe, {step}</translation>
        </message>
        <message>
            <source>Measured height of a terrace; 0 where it was not measured.</source>
            <translation>Gemessene Höhe einer Treppenstufe; 0, wo sie nicht gemessen wurde.</translation>
        </message>
        <message>
            <source>Key {number}; 0 takes the judgement of this step back.</source>
            <translation>Taste {number}; 0 nimmt das Urteil über diese Stufe zurück.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/thing_drafts.py</name>
        <message>
            <source>New</source>
            <translation>Neu</translation>
        </message>
        <message>
            <source>{name}, copy</source>
            <translation>{name}, Kopie</translation>
        </message>
        <message>
            <source>There is another “{name}” already; choose another name.</source>
            <translation>Es gibt schon etwas anderes namens „{name}“; wählen Sie einen anderen Namen.</translation>
        </message>
        <message>
            <source>{error}; correct that value.</source>
            <translation>{error}; berichtigen Sie diesen Wert.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/thing_form.py</name>
        <message>
            <source>Where the value is from</source>
            <translation>Woher der Wert stammt</translation>
        </message>
        <message>
            <source>Source of {title}</source>
            <translation>Quelle von {title}</translation>
        </message>
        <message>
            <source>not said</source>
            <translation>nicht angegeben</translation>
        </message>
        <message>
            <source>Add a nozzle</source>
            <translation>Düse hinzufügen</translation>
        </message>
        <message>
            <source>Nozzle</source>
            <translation>Düse</translation>
        </message>
        <message>
            <source>Add an area</source>
            <translation>Bereich hinzufügen</translation>
        </message>
        <message>
            <source>Forbidden area</source>
            <translation>Sperrbereich</translation>
        </message>
        <message>
            <source>{title}, source</source>
            <translation>{title}, Quelle</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/things_dialog.py</name>
        <message>
            <source>{name} (example)</source>
            <translation>{name} (Beispiel)</translation>
        </message>
        <message>
            <source>Machines and materials</source>
            <translation>Maschinen und Materialien</translation>
        </message>
        <message>
            <source>Kind</source>
            <translation>Art</translation>
        </message>
        <message>
            <source>What the list shows</source>
            <translation>Was die Liste zeigt</translation>
        </message>
        <message>
            <source>Things of the shop</source>
            <translation>Dinge der Werkstatt</translation>
        </message>
        <message>
            <source>A star marks what is not saved; examples can be copied only.</source>
            <translation>Ein Stern zeigt, was nicht gesichert ist; Beispiele lassen sich nur kopieren.</translation>
        </message>
        <message>
            <source>A new one with usual values</source>
            <translation>Ein neues mit üblichen Werten</translation>
        </message>
        <message>
            <source>A copy of this one, to be changed</source>
            <translation>Eine Kopie davon zum Ändern</translation>
        </message>
        <message>
            <source>Remove it and its file</source>
            <translation>Samt seiner Datei entfernen</translation>
        </message>
        <message>
            <source>What is wrong</source>
            <translation>Was nicht stimmt</translation>
        </message>
        <message>
            <source>Save</source>
            <translation>Sichern</translation>
        </message>
        <message>
            <source>Write it into its file</source>
            <translation>In seine Datei schreiben</translation>
        </message>
        <message>
            <source>Let go of the changes</source>
            <translation>Änderungen verwerfen</translation>
        </message>
        <message>
            <source>Back to what was saved</source>
            <translation>Zurück zum Gesicherten</translation>
        </message>
        <message>
            <source>An example that comes with the program: copy it to change it.</source>
            <translation>Ein Beispiel, das mit dem Programm kommt: Kopieren Sie es, um es zu ändern.</translation>
        </message>
        <message>
            <source>Not saved yet: {count}, marked with a star. Save, or close once more to let go of it.</source>
            <translation>Noch nicht gesichert: {count}, mit Stern gezeigt. Sichern Sie, oder schließen Sie noch einmal, um es zu verwerfen.</translation>
        </message>
        <message>
            <source>Your own; kept in {folder}.</source>
            <translation>Ihr eigenes; liegt in {folder}.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/trial_box.py</name>
        <message>
            <source>Return or double click: change. Delete: remove.</source>
            <translation>Eingabe oder Doppelklick: ändern. Entf: entfernen.</translation>
        </message>
        <message>
            <source>No result yet. Print a test piece, look at each of its steps, and write down how it came out: what it teaches is shown below.</source>
            <translation>Noch kein Ergebnis. Drucken Sie ein Probestück, sehen Sie jede seiner Stufen an und schreiben Sie auf, wie sie herauskam: Was daraus zu lernen ist, steht darunter.</translation>
        </message>
        <message>
            <source>Of all machines</source>
            <translation>Von allen Maschinen</translation>
        </message>
        <message>
            <source>Trials of all machines and materials</source>
            <translation>Versuche mit allen Maschinen und Materialien</translation>
        </message>
        <message>
            <source>Also those of other machines and materials than this job's.</source>
            <translation>Auch die mit anderen Maschinen und Materialien als in diesem Auftrag.</translation>
        </message>
        <message>
            <source>Trials</source>
            <translation>Versuche</translation>
        </message>
        <message>
            <source>Write down …</source>
            <translation>Aufschreiben …</translation>
        </message>
        <message>
            <source>In the shop, not in this job.</source>
            <translation>In der Werkstatt, nicht in diesem Auftrag.</translation>
        </message>
        <message>
            <source>Change …</source>
            <translation>Ändern …</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/trial_desk.py</name>
        <message>
            <source>Take a test piece</source>
            <translation>Probestück nehmen</translation>
        </message>
        <message>
            <source>Take test pieces</source>
            <translation>Probestücke nehmen</translation>
        </message>
        <message>
            <source>Which test pays</source>
            <translation>Welche Probe sich lohnt</translation>
        </message>
        <message>
            <source>For each open question the piece that answers it in the least time; first what decides most class A in an hour.</source>
            <translation>Zu jeder offenen Frage das Stück, das sie in der kürzesten Zeit beantwortet; zuerst, was je Stunde am meisten Klasse A entscheidet.</translation>
        </message>
        <message>
            <source>Test pieces that were printed, and how they came out.</source>
            <translation>Probestücke, die gedruckt wurden, und wie sie herauskamen.</translation>
        </message>
        <message>
            <source>What they teach</source>
            <translation>Was sie lehren</translation>
        </message>
        <message>
            <source>Limits that the results propose; nothing is changed until you take it.</source>
            <translation>Grenzwerte, die sich aus den Ergebnissen ergeben; nichts ändert sich, bevor Sie es übernehmen.</translation>
        </message>
        <message>
            <source>Choose a machine and a pair of the shop first: a result belongs to them.</source>
            <translation>Wählen Sie zuerst Maschine und Materialpaar der Werkstatt: Ein Ergebnis gehört zu ihnen.</translation>
        </message>
        <message>
            <source>test pieces</source>
            <translation>Probestücke</translation>
        </message>
        <message>
            <source>trials</source>
            <translation>Versuche</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/trial_form.py</name>
        <message>
            <source>Of this print.</source>
            <translation>Dieses Drucks.</translation>
        </message>
        <message>
            <source>Anything worth remembering.</source>
            <translation>Alles, was man sich merken will.</translation>
        </message>
        <message>
            <source>Photo …</source>
            <translation>Foto …</translation>
        </message>
        <message>
            <source>Choose a picture, or drop one here; it is kept small, and without where it was taken.</source>
            <translation>Wählen Sie ein Bild oder ziehen Sie eines hierher; es wird klein gespeichert und ohne den Ort der Aufnahme.</translation>
        </message>
        <message>
            <source>Without</source>
            <translation>Ohne</translation>
        </message>
        <message>
            <source>Leave the photo away.</source>
            <translation>Das Foto weglassen.</translation>
        </message>
        <message>
            <source>Keys 1, 2, 3 judge a step and go on to the next; 0 takes it back.</source>
            <translation>Die Tasten 1, 2, 3 beurteilen eine Stufe und gehen zur nächsten; 0 nimmt es zurück.</translation>
        </message>
        <message>
            <source>Measured values</source>
            <translation>Messwerte</translation>
        </message>
        <message>
            <source>Fields for measured values</source>
            <translation>Felder für Messwerte</translation>
        </message>
        <message>
            <source>Roughness Ra and height of terraces, if you measured them.</source>
            <translation>Rauheit Ra und Höhe der Treppenstufen, falls Sie sie gemessen haben.</translation>
        </message>
        <message>
            <source>Write it down</source>
            <translation>Aufschreiben</translation>
        </message>
        <message>
            <source>Keep it with the job and in the shop (Ctrl+Return).</source>
            <translation>Mit dem Auftrag und in der Werkstatt speichern (Strg+Eingabe).</translation>
        </message>
        <message>
            <source>Write nothing down (Escape).</source>
            <translation>Nichts aufschreiben (Esc).</translation>
        </message>
        <message>
            <source>Printed on “{machine}” in {pair}, as the shop has them chosen.</source>
            <translation>Gedruckt auf „{machine}“ in {pair}, wie in der Werkstatt gewählt.</translation>
        </message>
        <message>
            <source>Change the result</source>
            <translation>Ergebnis ändern</translation>
        </message>
        <message>
            <source>Test piece</source>
            <translation>Probestück</translation>
        </message>
        <message>
            <source>What was printed.</source>
            <translation>Was gedruckt wurde.</translation>
        </message>
        <message>
            <source>As 2026-11-26.</source>
            <translation>Zum Beispiel 2026-11-26.</translation>
        </message>
        <message>
            <source>Steps</source>
            <translation>Stufen</translation>
        </message>
        <message>
            <source>As they stand on the print, with semicolons between them, such as 30; 35; 40.</source>
            <translation>Wie sie auf dem Druck stehen, mit Strichpunkten dazwischen, etwa 30; 35; 40.</translation>
        </message>
        <message>
            <source>Write the steps as numbers with semicolons between them.</source>
            <translation>Schreiben Sie die Stufen als Zahlen mit Strichpunkten dazwischen.</translation>
        </message>
        <message>
            <source>No photo yet: drop one here.</source>
            <translation>Noch kein Foto: Ziehen Sie eines hierher.</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/turn_tool.py</name>
        <message>
            <source>Drag to turn about {value} in 1° steps, with Ctrl 15°</source>
            <translation>Ziehen Sie, um in Schritten von 1° um {value} zu drehen, mit Strg 15°</translation>
        </message>
        <message>
            <source>Turned {snapped:+.0f}° about {value}</source>
            <translation>Um {snapped:+.0f}° um {value} gedreht</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/verbs.py</name>
        <message>
            <source>Quarter turn</source>
            <translation>Vierteldrehung</translation>
        </message>
        <message>
            <source>Unmark all faces</source>
            <translation>Alle Markierungen löschen</translation>
        </message>
        <message>
            <source>Go to the pinned pose</source>
            <translation>Zur angehefteten Lage gehen</translation>
        </message>
        <message>
            <source>Lay as in the file</source>
            <translation>Legen wie in der Datei</translation>
        </message>
    </context>
    <context>
        <name>viewer/window/way_box.py</name>
        <message>
            <source>Where the band begins, over the platform and in the present pose.</source>
            <translation>Wo das Band beginnt, über der Bauplattform und in der jetzigen Lage.</translation>
        </message>
        <message>
            <source>Where the band ends, over the platform and in the present pose.</source>
            <translation>Wo das Band endet, über der Bauplattform und in der jetzigen Lage.</translation>
        </message>
        <message>
            <source>Also mark what lies within the loop but is hidden behind the part.</source>
            <translation>Auch markieren, was in der Schleife liegt, aber hinter dem Teil verdeckt ist.</translation>
        </message>
        <message>
            <source>How far above the plane through its middle the part is looked at from: 0° level, 90° straight from above, less than 0° from below.</source>
            <translation>Wie hoch über der Ebene durch seine Mitte das Teil betrachtet wird: 0° waagerecht, 90° genau von oben, unter 0° von unten.</translation>
        </message>
        <message>
            <source>From how many places, evenly on a circle round the part.</source>
            <translation>Von wie vielen Stellen, gleichmäßig auf einem Kreis um das Teil.</translation>
        </message>
        <message>
            <source>How far the eye is from the middle of the part: an arm's length for what is held.</source>
            <translation>Wie weit das Auge von der Mitte des Teils entfernt ist: eine Armlänge für das, was man hält.</translation>
        </message>
        <message>
            <source>Which way points up in use: as the part lies now, or an axis of the file.</source>
            <translation>Was im Gebrauch nach oben zeigt: wie das Teil jetzt liegt, oder eine Achse der Datei.</translation>
        </message>
        <message>
            <source>By so much marks grow and shrink; spikes and notches narrower than this are smoothed away.</source>
            <translation>Um so viel werden Markierungen weiter und enger; schmalere Zacken und Kerben werden weggeglättet.</translation>
        </message>
        <message>
            <source>Which half is the model. The plane lies through the middle of the part's box, across an axis of the file.</source>
            <translation>Welche Hälfte das Vorbild ist. Die Ebene liegt durch die Mitte des Quaders um das Teil, quer zu einer Achse der Datei.</translation>
        </message>
        <message>
            <source>Right onto left (x)</source>
            <translation>Rechts auf links (x)</translation>
        </message>
        <message>
            <source>Left onto right (x)</source>
            <translation>Links auf rechts (x)</translation>
        </message>
        <message>
            <source>Back onto front (y)</source>
            <translation>Hinten auf vorn (y)</translation>
        </message>
        <message>
            <source>Front onto back (y)</source>
            <translation>Vorn auf hinten (y)</translation>
        </message>
        <message>
            <source>Top onto bottom (z)</source>
            <translation>Oben auf unten (z)</translation>
        </message>
        <message>
            <source>Bottom onto top (z)</source>
            <translation>Unten auf oben (z)</translation>
        </message>
        <message>
            <source>as it lies</source>
            <translation>wie es liegt</translation>
        </message>
        <message>
            <source>z of the file</source>
            <translation>z der Datei</translation>
        </message>
        <message>
            <source>y of the file</source>
            <translation>y der Datei</translation>
        </message>
        <message>
            <source>x of the file</source>
            <translation>x der Datei</translation>
        </message>
        <message>
            <source>Band from</source>
            <translation>Band von</translation>
        </message>
        <message>
            <source>Band to</source>
            <translation>Band bis</translation>
        </message>
        <message>
            <source>Looking from</source>
            <translation>Blick von</translation>
        </message>
        <message>
            <source>Viewpoints</source>
            <translation>Blickpunkte</translation>
        </message>
        <message>
            <source>Distance of the eye</source>
            <translation>Abstand des Auges</translation>
        </message>
        <message>
            <source>Through the part</source>
            <translation>Durch das Teil</translation>
        </message>
        <message>
            <source>Up in use</source>
            <translation>Oben ist</translation>
        </message>
        <message>
            <source>Half that is mirrored</source>
            <translation>Gespiegelte Hälfte</translation>
        </message>
        <message>
            <source>Distance</source>
            <translation>Abstand</translation>
        </message>
        <message>
            <source>Grow</source>
            <translation>Weiten</translation>
        </message>
        <message>
            <source>Shrink</source>
            <translation>Engen</translation>
        </message>
        <message>
            <source>Smooth</source>
            <translation>Glätten</translation>
        </message>
        <message>
            <source>Mirror</source>
            <translation>Spiegeln</translation>
        </message>
        <message>
            <source>Exchange</source>
            <translation>Tauschen</translation>
        </message>
    </context>
</TS>
