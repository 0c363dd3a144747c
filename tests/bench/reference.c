/* Par and the number of shortest solutions by plain depth-first search, one thread, one table.

   It shares nothing with the program that it is held against. A piece is where its stickers are:
   the faces on which they lie, in the order of its home, as in "DFR" for a corner at home and "UFL"
   for the same corner above at the left. A turn of a face takes every piece that touches it, and
   its stickers once round: that is all that is known here of the cube.

   Reads a cube a line, the twelve pieces of cross and slots as "DF=UB DR=DR ..." in any order, and
   writes "par solutions nodes seconds". With the argument "first" it ends at the first solution.

   The table: how many turns the cross with the corner and edge of the slot FR is from solved, a
   byte a state. The other slots use it with the whole cube turned.                               */

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static const char FACES[] = "FBRLUD";
static const char *ROUND[] = {"URDL", "ULDR", "UBDF", "UFDB", "FLBR", "FRBL"};
/* Clockwise round each face: a sticker on the first goes to the second, and so on. */

static const char *CROSS[] = {"DF", "DR", "DB", "DL"};
static const char *EDGE[] = {"FR", "RB", "BL", "LF"};     /* of the slots, each turned to the next */
static const char *CORNER[] = {"DFR", "DRB", "DBL", "DLF"};

enum { TURNS = 18, PLACES = 24, CROSSES = 190080, NEVER = 255 };

static char edge_name[PLACES][4], corner_name[PLACES][4];
static int edge_turn[PLACES][TURNS], corner_turn[PLACES][TURNS];
static int edge_round[PLACES], corner_round[PLACES];      /* the whole cube turned: R to F */

static void go_round(const char *cycle, char *piece)
{
    for (; *piece; piece++) {
        const char *at = strchr(cycle, *piece);
        if (at) *piece = cycle[(at - cycle + 1) % 4];
    }
}

static int find(char names[][4], int count, const char *name)
{
    for (int i = 0; i < count; i++)
        if (!strcmp(names[i], name)) return i;
    return -1;
}

/* All places of a piece, from home outwards, and where turns take it. */
static void make_places(const char *home, char names[][4], int turn[][TURNS], int *whole)
{
    int count = 1;
    strcpy(names[0], home);
    for (int i = 0; i < count; i++)
        for (int t = 0; t < TURNS; t++) {
            char name[4];
            strcpy(name, names[i]);
            for (int k = 0; k <= t % 3; k++)
                if (strchr(name, FACES[t / 3])) go_round(ROUND[t / 3], name);
            turn[i][t] = find(names, count, name);
            if (turn[i][t] < 0) {
                strcpy(names[count], name);
                turn[i][t] = count++;
            }
        }
    for (int i = 0; i < count; i++) {
        char name[4];
        strcpy(name, names[i]);
        go_round(ROUND[4], name);
        whole[i] = find(names, count, name);
    }
}

/* -- the cross, numbered ----------------------------------------------------------------------- */

static int number_of[PLACES * PLACES * PLACES * PLACES], cross_turn[CROSSES][TURNS];
static int cross_round[4][CROSSES];
static uint8_t cross_places[CROSSES][4];

static int number(const int *p)
{
    return number_of[((p[0] * PLACES + p[1]) * PLACES + p[2]) * PLACES + p[3]];
}

static int same_piece(int a, int b)
{
    return strchr(edge_name[a], edge_name[b][0]) && strchr(edge_name[a], edge_name[b][1]);
}

static void make_crosses(void)
{
    int count = 0, p[4], q[4];
    for (int i = 0; i < PLACES * PLACES * PLACES * PLACES; i++) {
        p[0] = i / 13824, p[1] = i / 576 % 24, p[2] = i / 24 % 24, p[3] = i % 24;
        int differ = 1;
        for (int a = 0; a < 4; a++)
            for (int b = 0; b < a; b++) differ &= !same_piece(p[a], p[b]);
        if (!differ) continue;
        for (int a = 0; a < 4; a++) cross_places[count][a] = p[a];
        number_of[i] = count++;
    }
    for (int i = 0; i < CROSSES; i++) {
        for (int t = 0; t < TURNS; t++) {
            for (int a = 0; a < 4; a++) q[a] = edge_turn[cross_places[i][a]][t];
            cross_turn[i][t] = number(q);
        }
        for (int a = 0; a < 4; a++) q[(a + 3) % 4] = edge_round[cross_places[i][a]];
        cross_round[0][i] = i;
        cross_round[1][i] = number(q);
    }
    for (int s = 2; s < 4; s++)
        for (int i = 0; i < CROSSES; i++) cross_round[s][i] = cross_round[1][cross_round[s - 1][i]];
}

/* -- the table --------------------------------------------------------------------------------- */

static uint8_t (*table)[PLACES][PLACES];    /* by cross, corner, edge */

static void make_table(int home)
{
    table = malloc(sizeof *table * CROSSES);
    if (!table) exit(3);
    memset(table, NEVER, sizeof *table * CROSSES);
    table[home][find(corner_name, PLACES, CORNER[0])][find(edge_name, PLACES, EDGE[0])] = 0;
    int grown = 1;
    for (int d = 0; grown; d++) {
        grown = 0;
        for (int i = 0; i < CROSSES; i++)
            for (int c = 0; c < PLACES; c++)
                for (int e = 0; e < PLACES; e++) {
                    if (table[i][c][e] != d) continue;
                    for (int t = 0; t < TURNS; t++) {
                        uint8_t *there = &table[cross_turn[i][t]][corner_turn[c][t]][edge_turn[e][t]];
                        if (*there == NEVER) *there = d + 1, grown = 1;
                    }
                }
    }
}

/* -- the search -------------------------------------------------------------------------------- */

typedef struct {
    int cross, corner[4], edge[4];
} Node;

static uint8_t corner_seen[4][PLACES], edge_seen[4][PLACES];
static int home_cross, home_corner[4], home_edge[4], only_first;
static long nodes, solutions;

static int is_near(const Node *n, int turns)
{
    for (int s = 0; s < 4; s++) {
        int cross = cross_round[s][n->cross];
        if (table[cross][corner_seen[s][n->corner[s]]][edge_seen[s][n->edge[s]]] > turns) return 0;
    }
    return 1;
}

static int is_home(const Node *n)
{
    for (int s = 0; s < 4; s++)
        if (n->corner[s] != home_corner[s] || n->edge[s] != home_edge[s]) return 0;
    return n->cross == home_cross;
}

static void solve(const Node *n, int turns, int before)
{
    if (!turns) {
        solutions += is_home(n);
        return;
    }
    for (int t = 0; t < TURNS; t++) {
        int face = t / 3;
        if (face == before || ((face ^ 1) == before && face < before)) continue;
        Node next;
        next.cross = cross_turn[n->cross][t];
        for (int s = 0; s < 4; s++) {
            next.corner[s] = corner_turn[n->corner[s]][t];
            next.edge[s] = edge_turn[n->edge[s]][t];
        }
        nodes++;
        if (is_near(&next, turns - 1)) solve(&next, turns - 1, face);
        if (only_first && solutions) return;
    }
}

static int read_node(char *line, Node *n)
{
    int seen = 0, cross[4];
    for (char *word = strtok(line, " \n"); word; word = strtok(NULL, " \n")) {
        char *place = strchr(word, '=');
        if (!place) return 0;
        *place++ = 0;
        for (int s = 0; s < 4; s++) {
            if (!strcmp(word, CROSS[s])) cross[s] = find(edge_name, PLACES, place), seen++;
            if (!strcmp(word, EDGE[s])) n->edge[s] = find(edge_name, PLACES, place), seen++;
            if (!strcmp(word, CORNER[s])) n->corner[s] = find(corner_name, PLACES, place), seen++;
        }
    }
    if (seen != 12) return 0;
    n->cross = number(cross);
    return 1;
}

int main(int count, char **arguments)
{
    char line[256];
    only_first = count > 1 && !strcmp(arguments[1], "first");
    make_places(CORNER[0], corner_name, corner_turn, corner_round);
    make_places(CROSS[0], edge_name, edge_turn, edge_round);
    make_crosses();
    int home[4];
    for (int s = 0; s < 4; s++) {
        home[s] = find(edge_name, PLACES, CROSS[s]);
        home_corner[s] = find(corner_name, PLACES, CORNER[s]);
        home_edge[s] = find(edge_name, PLACES, EDGE[s]);
    }
    home_cross = number(home);
    for (int p = 0; p < PLACES; p++) {
        corner_seen[0][p] = edge_seen[0][p] = p;
        for (int s = 1; s < 4; s++) {
            corner_seen[s][p] = corner_round[corner_seen[s - 1][p]];
            edge_seen[s][p] = edge_round[edge_seen[s - 1][p]];
        }
    }
    make_table(home_cross);
    while (fgets(line, sizeof line, stdin)) {
        Node root;
        if (!read_node(line, &root)) return 2;
        clock_t began = clock();
        int par = 0;
        nodes = solutions = 0;
        while (!is_near(&root, par)) par++;
        for (;; par++) {
            solve(&root, par, -1);
            if (solutions) break;
        }
        printf("%d %ld %ld %.4f\n", par, solutions, nodes, (double)(clock() - began) / CLOCKS_PER_SEC);
        fflush(stdout);
    }
    return 0;
}
