/* SPDX-License-Identifier: MIT */
/*
 * The help's page on the file format says of every field what its table says. With --print the program writes
 * the page's sections instead, to be put into help/C/format.page when a table has changed.
 */
#include <math.h>
#include <rig/rw-rig.h>
#include <rig/rw-state.h>
#include <stdio.h>
#include <string.h>

typedef struct
{
  const char *id;    /* of the page's section */
  const char *title;
  const char *where; /* what holds such a record */
  const RwTable *table;
} Section;

static const Section sections[] = {
  { "show", "Show", "What the drawing is of: the member <code>show</code> of the file.", &rw_show_table },
  { "system", "System", "What holds for the whole rig, unless a device says otherwise: the member <code>system</code>.",
    &rw_system_table },
  { "part", "Part", "A type of device: in the array <code>parts</code>. A rig holds a copy of each part that it uses, "
    "so that the file stands alone.", &rw_part_table },
  { "port", "Port", "A socket of a part: in its array <code>ports</code>.", &rw_port_table },
  { "device", "Device", "In the array <code>devices</code>.", &rw_device_table },
  { "clock", "Clock", "The member <code>clock</code> of a device, by IEEE 1588.", &rw_clock_table },
  { "addresses", "Addresses", "The member <code>addresses</code> of a device.", &rw_addresses_table },
  { "cable", "Cable", "In the array <code>cables</code>, in the order in which they were drawn.", &rw_cable_table },
  { "patch", "Patch row", "A channel over the network, from a send to a receive: in the array <code>patch</code>.",
    &rw_patch_table },
  { "inside", "Inside row", "A way inside a device: in the array <code>inside</code>.", &rw_inside_table },
  { "channel", "Channel", "What is known of one channel: in the array <code>channels</code>.", &rw_channel_table },
  { "set", "Patch set", "A patch that was stored under a name: in the array <code>sets</code>.", &rw_set_table },
  { "revision", "Revision", "A state of the rig that was given out: in the array <code>revisions</code>.", &rw_revision_table },
};

static char *
number_text (double value)
{
  if (value == G_MININT || value == G_MAXINT)
    return g_strdup ("any");
  return value < 0 ? g_strdup_printf ("−%.10g", -value) : g_strdup_printf ("%.10g", value);
}

static char *
range_text (const RwField *field)
{
  g_autofree char *min = number_text (field->min);
  g_autofree char *max = number_text (field->max);
  GString *text = g_string_new (NULL);

  for (const int *value = field->allowed; value != NULL && *value != 0; value++)
    g_string_append_printf (text, "%s%d", text->len > 0 ? ", " : "", *value);
  if (field->allowed == NULL && field->min == G_MININT)
    g_string_append (text, "a 32-bit number");
  else if (field->allowed == NULL)
    g_string_append_printf (text, "%s…%s", min, max);
  if (field->step > 1)
    g_string_append_printf (text, ", multiples of %d", field->step);
  if (field->unit != NULL)
    g_string_append_printf (text, " %s", field->unit);
  return g_string_free (text, FALSE);
}

static char *
words_text (const RwField *field)
{
  g_autofree char *words = g_strjoinv ("</code>, <code>", (char **) field->words);

  return g_strdup_printf ("<code>%s</code>", words);
}

static const char *
section_of (const RwTable *table)
{
  for (gsize i = 0; i < G_N_ELEMENTS (sections); i++)
    if (sections[i].table == table)
      return sections[i].id;
  g_assert_not_reached ();
}

/* What the field may hold, as Mallard text. */
static char *
values_text (const RwField *field)
{
  g_autofree char *text = NULL;

  switch (field->kind)
    {
    case RW_FIELD_ID:
      return g_strdup ("id");
    case RW_FIELD_TEXT:
      return g_strdup ("text");
    case RW_FIELD_INTEGER:
      text = range_text (field);
      return g_strdup_printf ("integer: %s", text);
    case RW_FIELD_REAL:
      text = range_text (field);
      return g_strdup_printf ("number: %s", text);
    case RW_FIELD_BOOLEAN:
      return g_strdup ("<code>true</code> or <code>false</code>");
    case RW_FIELD_WORD:
      return words_text (field);
    case RW_FIELD_POINT:
      text = range_text (field);
      return g_strdup_printf ("[x, y]: each %s", text);
    case RW_FIELD_POINTS:
      text = range_text (field);
      return g_strdup_printf ("array of [x, y]: each %s", text);
    case RW_FIELD_END:
      return g_strdup ("[device, port]");
    case RW_FIELD_SLOT:
      return g_strdup ("[device, number]");
    case RW_FIELD_PLACE:
      text = words_text (field);
      return g_strdup_printf ("[kind, number]; kind is one of %s", text);
    case RW_FIELD_RECORD:
      return g_strdup_printf ("object: <link xref=\"#%s\"/>", section_of (field->sub));
    case RW_FIELD_RECORDS:
      return g_strdup_printf ("array of objects: <link xref=\"#%s\"/>", section_of (field->sub));
    case RW_FIELD_VLANS:
      text = range_text (field);
      return g_strdup_printf ("object of PORT: VLAN or [VLAN, …]; each %s", text);
    case RW_FIELD_STATE:
      return g_strdup ("object: <link xref=\"#state\"/>");
    default:
      g_assert_not_reached ();
    }
}

static char *
default_text (const RwField *field)
{
  g_autofree char *number = NULL;

  if (field->flags & RW_FIELD_REQUIRED)
    return g_strdup ("must be there");
  if (field->fallback != NULL)
    return g_strdup_printf ("the system’s <code>%s</code>", field->fallback);
  if (!field->has_def)
    return g_strdup ("none");
  if (field->kind == RW_FIELD_BOOLEAN)
    return g_strdup (field->def != 0 ? "<code>true</code>" : "<code>false</code>");
  if (field->kind == RW_FIELD_WORD)
    return g_strdup_printf ("<code>%s</code>", rw_field_word (field, (int) field->def));
  number = number_text (field->def);
  return g_strdup (number);
}

static char *
row_text (const RwField *field)
{
  g_autofree char *values = values_text (field);
  g_autofree char *absent = default_text (field);
  g_autofree char *help = g_markup_escape_text (field->help, -1);

  return g_strdup_printf ("      <tr>\n"
                          "        <td><p><code>%s</code></p></td>\n"
                          "        <td><p>%s</p></td>\n"
                          "        <td><p>%s</p></td>\n"
                          "        <td><p>%s</p></td>\n"
                          "      </tr>\n", field->name, values, absent, help);
}

static void
print_section (const Section *section)
{
  printf ("\n  <section id=\"%s\">\n    <title>%s</title>\n    <p>%s</p>\n    <table frame=\"all\" rules=\"rows\">\n"
          "      <thead>\n      <tr>\n        <td><p>Member</p></td>\n        <td><p>Holds</p></td>\n"
          "        <td><p>When absent</p></td>\n        <td><p>Meaning</p></td>\n      </tr>\n      </thead>\n      <tbody>\n",
          section->id, section->title, section->where);
  for (guint i = 0; i < section->table->n_fields; i++)
    {
      g_autofree char *row = row_text (&section->table->fields[i]);

      fputs (row, stdout);
    }
  fputs ("      </tbody>\n    </table>\n  </section>\n", stdout);
}

static char *page;

/* The text of the page's section, to its end. */
static char *
find_section (const Section *section)
{
  g_autofree char *head = g_strdup_printf ("<section id=\"%s\">", section->id);
  const char *start = strstr (page, head), *end;

  if (start == NULL)
    {
      g_test_message ("format.page has no section “%s”", section->id);
      g_test_fail ();
      return g_strdup ("");
    }
  end = strstr (start, "</section>");
  g_assert_nonnull (end);
  return g_strndup (start, end - start);
}

static guint
count (const char *text, const char *part)
{
  guint n = 0;

  for (const char *p = strstr (text, part); p != NULL; p = strstr (p + 1, part))
    n++;
  return n;
}

static void
test_section (gconstpointer data)
{
  const Section *section = data;
  g_autofree char *text = find_section (section);

  for (guint i = 0; i < section->table->n_fields; i++)
    {
      g_autofree char *row = row_text (&section->table->fields[i]);

      if (strstr (text, row) == NULL)
        {
          g_test_message ("section “%s” lacks this row, or says something else of it:\n%s", section->id, row);
          g_test_fail ();
        }
    }
  /* No row more: one for each field and one for the head. */
  g_assert_cmpuint (count (text, "<tr>"), ==, section->table->n_fields + 1);
}

/* Every type of item has a section, and every table that a field leads to. */
static void
test_complete (void)
{
  for (int type = 0; type < RW_N_ITEM_TYPES; type++)
    {
      const RwTable *table = rw_item_type_table (type);

      section_of (table);
      for (guint i = 0; i < table->n_fields; i++)
        if (table->fields[i].sub != NULL)
          section_of (table->fields[i].sub);
    }
}

int
main (int argc, char **argv)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *path = NULL;
  int result;

  if (argc == 2 && strcmp (argv[1], "--print") == 0)
    {
      for (gsize i = 0; i < G_N_ELEMENTS (sections); i++)
        print_section (&sections[i]);
      return 0;
    }
  g_test_init (&argc, &argv, NULL);
  path = g_test_build_filename (G_TEST_DIST, "..", "help", "C", "format.page", NULL);
  g_file_get_contents (path, &page, NULL, &error);
  g_assert_no_error (error);
  g_test_add_func ("/data/format/complete", test_complete);
  for (gsize i = 0; i < G_N_ELEMENTS (sections); i++)
    {
      g_autofree char *name = g_strdup_printf ("/data/format/%s", sections[i].id);

      g_test_add_data_func (name, &sections[i], test_section);
    }
  result = g_test_run ();
  g_free (page);
  return result;
}
