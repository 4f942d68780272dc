package siltwright.transfer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import siltwright.model.InputException;
import siltwright.model.history.FleetHistory;
import siltwright.store.Store;

/**
 * Documents of ISO 15143-3 with the ways in which feeds differ from it. Element names: public
 * interface descriptions, and the standard from memory; machines are invented.
 */
class TelematicsTest {
  private static final String NS = "xmlns='http://standards.iso.org/iso/15143/-3'";

  @TempDir Path folder;
  private Bench bench;

  @BeforeEach
  void begin() {
    bench = new Bench(folder);
  }

  private ImportReport bring(String text) {
    return bench.bring(bench.file("feed" + text.hashCode(), text));
  }

  private List<String> meters(String machine) {
    List<String> all = new ArrayList<>();
    try (FleetHistory history = Store.read(bench.where())) {
      history.readings(machine, r -> all.add(r.moment().at() + " " + r.moment().meterH()));
    }
    return all;
  }

  private static String equipment(String id, String pin, String rest) {
    return "<Equipment><EquipmentHeader><OEMName>Maker</OEMName><EquipmentID>"
        + id
        + "</EquipmentID><SerialNumber>S-"
        + id
        + "</SerialNumber><PIN>"
        + pin
        + "</PIN></EquipmentHeader>"
        + rest
        + "</Equipment>";
  }

  private static String hours(String at, String hour) {
    return "<CumulativeOperatingHours datetime='"
        + at
        + "'><Hour>"
        + hour
        + "</Hour></CumulativeOperatingHours>";
  }

  @Test
  void aSnapshotGivesMetersAndFaults() {
    ImportReport report =
        bring(
            "<?xml version='1.0'?><Fleet "
                + NS
                + " version='1' snapshotTime='2024-05-02T00:00:00Z'>"
                + equipment(
                    "EX-1",
                    "PIN1",
                    hours("2024-05-01T20:00:00Z", "1234.5")
                        + "<Location datetime='2024-05-01T20:00:00Z'><Latitude>1</Latitude>"
                        + "<Longitude>2</Longitude></Location>"
                        + "<FaultCode datetime='2024-05-01T21:00:00.250Z'>"
                        + "<CodeIdentifier>E 17</CodeIdentifier>"
                        + "<CodeDescription>Filter &lt;return&gt; restricted</CodeDescription>"
                        + "<CodeSeverity>High</CodeSeverity></FaultCode>"
                        + "<FuelRemaining datetime='2024-05-01T20:00:00Z'><Percent>5</Percent>"
                        + "</FuelRemaining>")
                + equipment("EX-2", "", "")
                + "</Fleet>");
    assertEquals(2, report.added(), report.problems().toString());
    assertEquals(1, report.machines());
    assertEquals(List.of("2024-05-01T20:00:00Z 1234.5"), meters("EX-1"));
    List<String> faults = new ArrayList<>();
    try (FleetHistory history = Store.read(bench.where())) {
      history.faults("EX-1", f -> faults.add(f.code() + ": " + f.description()));
      assertEquals("PIN1", history.machines().get(0).serial());
    }
    assertEquals(List.of("E 17: Filter <return> restricted"), faults);
    assertTrue(report.notes().contains("Parts that are not used: FuelRemaining."));
    assertTrue(report.notes().contains("S-EX-2: no operating hours."));
  }

  @Test
  void feedsThatDifferAreTaken() {
    bring(
        "<Fleet>"
            + equipment("A", "P1", hours("2024-01-01T00:00:00+00:00", "PT13H30M"))
            + "</Fleet>");
    ImportReport zoneless =
        bring(
            "<Fleet xmlns='urn:other'><Equipment><EquipmentHeader EquipmentID='A' PIN='P1'/>"
                + "<CumulativeOperatingHours dateTime='2024-01-02T00:00:00'>37.5"
                + "</CumulativeOperatingHours></Equipment></Fleet>");
    assertTrue(zoneless.notes().contains("Times without a zone are read as UTC."));
    bring("<Fleet>" + equipment("A", "P1", hours("2024-01-03T00:00:00Z", "P2DT1H")) + "</Fleet>");
    bring(
        "[{\"EquipmentHeader\":{\"PIN\":\"P1\"},\"CumulativeOperatingHours\":"
            + "{\"datetime\":\"2024-01-04T00:00:00Z\",\"Hour\":61.25}}]");
    bring(
        "{\"Fleet\":{\"Links\":[],\"Equipment\":[{\"EquipmentHeader\":{\"PIN\":\"P1\"},"
            + "\"CumulativeOperatingHours\":{\"datetime\":\"2024-01-05T00:00:00Z\",\"Hour\":70}}]}}");
    assertEquals(
        List.of(
            "2024-01-01T00:00:00Z 13.5",
            "2024-01-02T00:00:00Z 37.5",
            "2024-01-03T00:00:00Z 49.0",
            "2024-01-04T00:00:00Z 61.25",
            "2024-01-05T00:00:00Z 70.0"),
        meters("A"));
  }

  @Test
  void aTimeSeriesComesInOnce() {
    StringBuilder series = new StringBuilder("<CumulativeOperatingHoursSeries " + NS + ">");
    series.append("<EquipmentHeader><EquipmentID>A</EquipmentID><PIN>P1</PIN></EquipmentHeader>");
    for (int d = 10; d < 20; d++) {
      series.append(hours("2024-03-" + d + "T00:00:00Z", String.valueOf(8 * d)));
    }
    series.append("</CumulativeOperatingHoursSeries>");
    assertEquals(10, bring(series.toString()).added());
    assertEquals(10, bring(series.toString()).known());
  }

  @Test
  void whatIsMissingIsReportedAndTheFleetKept() {
    ImportReport report =
        bring(
            "<Fleet>"
                + equipment("A", "P1", hours("2024-01-01T00:00:00Z", "N/A"))
                + equipment("B", "P2", hours("someday", "5"))
                + equipment("C", "P3", hours("2024-01-01T00:00:00Z", "5"))
                + "</Fleet>");
    assertEquals(1, report.added());
    assertEquals(2, report.refused());
    assertTrue(report.problems().get(0).toString().contains("found N/A; expected hours"));
  }

  @Test
  void theSwitchOfACloggedFilterIsKept() {
    bring(
        "<Fleet>"
            + equipment(
                "A",
                "P1",
                "<HydraulicOilFilterRestrictionSwitch datetime='2024-01-01T00:00:00Z'><State>On"
                    + "</State></HydraulicOilFilterRestrictionSwitch>")
            + "</Fleet>");
    List<String> faults = new ArrayList<>();
    try (FleetHistory history = Store.read(bench.where())) {
      history.faults("A", f -> faults.add(f.code()));
    }
    assertEquals(List.of("HydraulicOilFilterRestrictionSwitch"), faults);
  }

  @Test
  void otherDocumentsAreRefused() {
    assertTrue(
        assertThrows(InputException.class, () -> bring("<html><body/></html>"))
            .getMessage()
            .contains("a document of another kind"));
    assertTrue(
        assertThrows(InputException.class, () -> bring("<Fleet><Equip"))
            .getMessage()
            .contains("XML that cannot be read"));
    assertTrue(
        assertThrows(InputException.class, () -> bring("{\"a\":"))
            .getMessage()
            .contains("JSON that cannot be read"));
  }
}
